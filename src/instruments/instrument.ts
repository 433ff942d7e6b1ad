import type { LinkDescription, LinkQuantity, SettingName } from "../claims/links/description.ts";
import { type Figure, figureIn } from "./answer.ts";
import { InstrumentFault, saidWords } from "./fault.ts";
import { Line, type LineState, type Talk } from "./line.ts";
import { matched } from "./match.ts";
import { type Habit, noHabit, stuckBy, withReading } from "./stuck.ts";
import { planSupply, type Settings, type SupplyBounds, type SupplyPlan } from "./supply.ts";
import type { OpenWire } from "./wire.ts";

/** Between two questions to an instrument whose reading has not come to rest. */
const again_ms = 200;

export type SupplyAnswer =
  | { readonly ok: true; readonly set: Settings; readonly readBack: Settings; readonly isOn?: boolean }
  | Extract<SupplyPlan, { ok: false }>;

/** One instrument as its description says it is spoken to: what it reads, and what it can be set to. */
export class Instrument {
  readonly name: string;
  readonly description: LinkDescription;
  private readonly line: Line;
  private readonly habits = new Map<string, Habit>();
  private prepared: string | undefined;

  constructor(
    name: string,
    description: LinkDescription,
    more: { readonly open?: OpenWire; readonly onState?: () => void } = {},
  ) {
    this.name = name;
    this.description = description;
    this.line = new Line(name, description, {
      ...more,
      onState: () => {
        if (this.line.state.state !== "open") this.prepared = undefined;
        more.onState?.();
      },
    });
  }

  get state(): LineState {
    return this.line.state;
  }

  close(): void {
    this.line.close();
  }

  /**
   * Reads one figure.
   *
   * @param at  the workshop's present moment, told with a reading that stays the same for ever
   * @throws InstrumentFault  naming what is the matter; then nothing may be written down
   */
  async read(quantity: string, at: string): Promise<Figure> {
    const wanted = this.description.quantities.find((one) => one.quantity === quantity);
    if (!wanted) throw new RangeError(`${this.name} reads no ${quantity}`);
    return this.line.talk(async (talk) => {
      const figure = await this.figure(talk, wanted);
      const habit = this.habits.get(quantity) ?? noHabit;
      const stuck = stuckBy(habit, figure);
      this.habits.set(quantity, withReading(habit, figure, at));
      if (stuck.is === false) return figure;
      throw this.fault(
        stuck.is,
        stuck.is === "stuck"
          ? `${saidWords(figure.raw)} for the ${stuck.times}th time to the last digit, since ${stuck.since}, where it scattered before; is it held, or hung?`
          : `its clock stands still at ${saidWords(figure.clock ?? "")}; it repeats an old reading`,
      );
    });
  }

  private async figure(talk: Talk, wanted: LinkQuantity): Promise<Figure> {
    const { timeout_ms } = this.description;
    if (wanted.send !== undefined) await this.prepare(talk, wanted);
    const until = Date.now() + timeout_ms;
    for (;;) {
      const left_ms = until - Date.now();
      const line = wanted.send === undefined ? await talk.hear(Math.max(1, left_ms)) : await talk.ask(wanted.send);
      const answer = figureIn(line, wanted);
      if (answer.ok) return answer;
      if (answer.problem !== "unsteady" || Date.now() + again_ms > until)
        throw this.fault(answer.problem, answer.words);
      if (wanted.send !== undefined) await new Promise((done) => setTimeout(done, again_ms));
    }
  }

  /** Told once for as long as the line stands and nothing else was read meanwhile. */
  private async prepare(talk: Talk, { prepare, quantity }: LinkQuantity): Promise<void> {
    if (this.prepared === quantity) return;
    this.prepared = undefined;
    for (const text of prepare) await talk.tell(text);
    this.prepared = quantity;
  }

  /**
   * Brings a supply to what is wanted, inside its owner's limits: each setting is read back before the next is sent.
   *
   * @throws InstrumentFault  when it refuses or answers otherwise; what it then gives is not known
   */
  async set(wanted: Settings, bounds: SupplyBounds | undefined): Promise<SupplyAnswer> {
    return this.line.talk(async (talk) => {
      const stands = await this.standing(talk);
      const plan = planSupply(stands, wanted, bounds);
      if (!plan.ok) return plan;
      const readBack: Partial<Record<SettingName, number>> = { ...stands };
      const sent: Partial<Record<SettingName, number>> = {};
      for (const { setting, value } of plan.steps) {
        const how = this.setting(setting);
        const text = value.toFixed(how.decimals);
        await talk.tell(how.send.replace("{value}", text));
        await this.requireNoError(talk, `${setting} of ${text}`);
        const back = await this.settingNow(talk, setting);
        if (Math.abs(back - Number(text)) > how.agrees) {
          throw this.fault(
            "not confirmed",
            `${setting} was set to ${text} and it answers ${back}; what it gives is not known: switch its output off`,
          );
        }
        sent[setting] = Number(text);
        readBack[setting] = back;
      }
      const isOn = await this.isOn(talk);
      return { ok: true, set: sent, readBack, ...(isOn !== undefined && { isOn }) };
    });
  }

  /** Switches its output off, whatever it is set to, or on where what it is set to lies inside its owner's limits. */
  async switchOutput(on: boolean, bounds: SupplyBounds | undefined): Promise<SupplyAnswer> {
    const { output } = this.description;
    if (!output) throw new RangeError(`${this.name} has no output that can be switched`);
    return this.line.talk(async (talk) => {
      const stands = on ? await this.standing(talk) : {};
      if (on) {
        const plan = planSupply(stands, stands, bounds);
        if (!plan.ok) return plan;
      }
      await talk.tell(on ? output.on : output.off);
      await this.requireNoError(talk, on ? "its output on" : "its output off");
      const isOn = await this.isOn(talk);
      if (isOn !== on) {
        const wanted = on ? "on" : "off";
        throw this.fault("not confirmed", `its output was switched ${wanted} and it answers otherwise; pull its plug`);
      }
      return { ok: true, set: {}, readBack: on ? stands : await this.standing(talk), isOn };
    });
  }

  /** What it is set to now, and whether its output is on. */
  async supplyNow(): Promise<{ readonly settings: Settings; readonly isOn?: boolean }> {
    return this.line.talk(async (talk) => {
      const settings = await this.standing(talk);
      const isOn = await this.isOn(talk);
      return { settings, ...(isOn !== undefined && { isOn }) };
    });
  }

  private async standing(talk: Talk): Promise<Settings> {
    const stands: Partial<Record<SettingName, number>> = {};
    for (const { setting } of this.description.settings) stands[setting] = await this.settingNow(talk, setting);
    return stands;
  }

  private async settingNow(talk: Talk, setting: SettingName): Promise<number> {
    const { ask, answer } = this.setting(setting);
    const line = await talk.ask(ask);
    const text = this.groups(answer, line)?.value?.replace(/\s/g, "").replace(",", ".");
    const value = text === undefined || text === "" ? Number.NaN : Number(text);
    if (Number.isFinite(value)) return value;
    throw this.fault("garbled", `${saidWords(line)} does not say what ${setting} is set to`);
  }

  private async isOn(talk: Talk): Promise<boolean | undefined> {
    const { output } = this.description;
    if (!output) return undefined;
    const line = await talk.ask(output.ask);
    if (this.groups(output.isOn, line)) return true;
    if (this.groups(output.isOff, line)) return false;
    throw this.fault("garbled", `${saidWords(line)} does not say whether its output is on`);
  }

  private async requireNoError(talk: Talk, what: string): Promise<void> {
    const { errors } = this.description;
    if (!errors) return;
    const line = await talk.ask(errors.send);
    if (this.groups(errors.none, line)) return;
    throw this.fault("refused", `it refuses ${what}: ${saidWords(line)}`);
  }

  private setting(name: SettingName) {
    const found = this.description.settings.find(({ setting }) => setting === name);
    if (found) return found;
    throw new RangeError(`${this.name} can't be set in ${name}`);
  }

  private groups(pattern: string, line: string) {
    try {
      return matched(pattern, line);
    } catch (fault) {
      throw this.fault("garbled", (fault as Error).message);
    }
  }

  private fault(problem: InstrumentFault["problem"], words: string): InstrumentFault {
    return new InstrumentFault(this.name, problem, words);
  }
}
