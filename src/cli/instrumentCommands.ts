import type { Command } from "commander";

/** `stillglow instruments …`: what is asked of instruments on a wire. */
export function addInstrumentCommands(program: Command): void {
  const instruments = program.commands.find((command) => command.name() === "instruments");
  if (!instruments) throw new RangeError("the command 'instruments' comes first");
  instruments.addHelpText(
    "after",
    `  stillglow instruments link balance.json
  stillglow instruments read meter-lan level_V --unit 0417 --point HT --as ht_V
  stillglow instruments log meter-lan level_V --unit 0417 --point HT --every 10 --for 30
  stillglow instruments limits ac-source --volts 0..253 --hertz 50..62
  stillglow instruments set ac-source --volts 230 --hertz 57

How one is described: docs/instruments.md. Between two numbers stands '..'.`,
  );
  const about = (command: Command) =>
    command
      .option("--unit <serial>", "the unit it is read of")
      .option("--point <name>", "at which test point")
      .option("--channel <name>", "in which channel")
      .option("--valve <number>", "the valve it is read of")
      .option("--section <name>", "its section")
      .option("--piece <number>", "the piece of timber on the balance")
      .option("--as <quantity>", "the name it is kept under, where that is another of the same unit");
  const by = (command: Command, who = "bench technician") => command.option("--by <role>", "who does it", who);
  const run = async (command: Command, what: string, args: readonly string[]) =>
    (await import("./instruments.ts")).instruments(what, args, command.optsWithGlobals());
  const sub = (name: string, description: string) => instruments.command(name).description(description);

  sub("linked", "instruments on the wire, how each stands, and what they log").action(
    (_options: unknown, command: Command) => run(command, "linked", []),
  );
  by(sub("link", "take an instrument's description into use").argument("[file]", "its JSON file"), "owner")
    .option("--schema", "print what such a file may hold, as JSON Schema")
    .action((file: string | undefined, _options: unknown, command: Command) =>
      run(command, "link", file === undefined ? [] : [file]),
    );
  by(sub("unlink", "call an instrument no more").argument("<instrument>"), "owner").action(
    (instrument: string, _options: unknown, command: Command) => run(command, "unlink", [instrument]),
  );
  by(about(sub("read", "read a figure now; with --unit, --valve or --piece it is written down")))
    .argument("<instrument>")
    .argument("<quantity>", "such as level_V")
    .option("--id <id>", "an id of its own, under which it is read and written once, however often it is asked for")
    .action((instrument: string, quantity: string, _options: unknown, command: Command) =>
      run(command, "read", [instrument, quantity]),
    );
  by(about(sub("log", "read a figure again and again and write each reading down, until the time is up")))
    .argument("<instrument>")
    .argument("<quantity>", "such as level_V")
    .requiredOption("--every <seconds>", "between readings")
    .requiredOption("--for <minutes>", "how long")
    .option("--condition <name=value...>", "what to note with each reading")
    .option("--id <id>", "an id of its own")
    .action((instrument: string, quantity: string, _options: unknown, command: Command) =>
      run(command, "log", [instrument, quantity]),
    );
  by(sub("stop", "end a log before its time").argument("<log>", "its id")).action(
    (log: string, _options: unknown, command: Command) => run(command, "stop", [log]),
  );
  const limits = sub("limits", "what a supply may be set to, by its owner").argument("<instrument>");
  by(limits, "owner")
    .option("--volts <low..high>", "alternating volts")
    .option("--dc <low..high>", "direct volts")
    .option("--hertz <low..high>", "frequency")
    .option("--why <words>", "why these")
    .action((instrument: string, _options: unknown, command: Command) => run(command, "limits", [instrument]));
  by(sub("set", "set a supply inside its owner's limits, and have it confirm").argument("<instrument>"))
    .option("--volts <number>", "alternating volts")
    .option("--dc <number>", "direct volts")
    .option("--hertz <number>", "frequency; never below what the core needs")
    .option("--unit <serial>", "the unit that it feeds, whose own mains then bound it")
    .action((instrument: string, _options: unknown, command: Command) => run(command, "set", [instrument]));
  by(sub("output", "switch a supply's output: off always, on inside the limits").argument("<instrument>"))
    .argument("<on|off>")
    .option("--unit <serial>", "the unit that it feeds")
    .action((instrument: string, state: string, _options: unknown, command: Command) =>
      run(command, "output", [instrument, state]),
    );
}
