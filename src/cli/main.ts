import { Command, CommanderError } from "commander";
import { BadInput } from "../maths/badInput.ts";

/** Exit statuses: 0 done; 1 the answer is no (a release refused, a check failed); 2 bad input or wrong use. */
const program = new Command("stillglow")
  .description("Valve amplifiers built to order: claims, evidence with known doubt, and the cheapest next check.")
  .exitOverride()
  .configureOutput({ outputError: (words, write) => write(words.replace(/^error: /, "stillglow: ")) })
  .showHelpAfterError("(see 'stillglow --help')")
  .addHelpText(
    "after",
    `
Examples:
  stillglow calc                                list what can be computed
  echo '{"temperature_C":21.1,"humidity_pct":50}' | stillglow calc timber.emc
  stillglow demo                                make the demo workshop and show unit 0417
  stillglow serve --data my-workshop            open a workshop in the browser
  stillglow unit 0417 --data my-workshop        what is proven of a unit, and what comes next

Exit status: 0 done; 1 the answer is no (release refused, demo story missed); 2 bad input.`,
  );

program
  .command("calc")
  .description("compute one calculation, or list them all")
  .argument("[name]", "name from the list, such as hum.trace")
  .option("--schema", "print the JSON Schema of input and output")
  .option("--in <file>", "read the input from a file; recordings are found relative to it")
  .option("--batch", "answer JSON Lines {name, input} from stdin, one line each")
  .option("--json", "print the list as JSON")
  .addHelpText(
    "after",
    `
Examples:
  stillglow calc hum.trace --schema
  stillglow calc hum.trace --in three-recordings.json
  stillglow calc --batch < questions.jsonl > answers.jsonl`,
  )
  .action(async (name: string | undefined, options) => (await import("./calc.ts")).calc(name, options));

const dataOption = ["--data <folder>", "the workshop's data folder (default: $STILLGLOW_DATA, else ./data)"] as const;

program
  .command("demo")
  .description("make the invented workshop Quarrin Ness, answer for unit 0417 and serve its page")
  .option("--data <folder>", "where to make it (default: .stillglow/demo in this project)")
  .option("--port <number>", "port on loopback", "4170")
  .option("--seed <number>", "seed of the generator", "1")
  .option("--fresh", "make it anew, even when it is there")
  .option("--once", "make it, print the answer and stop")
  .option("--score", "hold the answers against the demo's truth and stop")
  .option("--json", "print as JSON")
  .addHelpText(
    "after",
    "\nExamples:\n  stillglow demo\n  stillglow demo --once --json > answer.json\n  stillglow demo --score --seed 7 --data /tmp/other",
  )
  .action(async (options) => (await import("./demo.ts")).demo(options));

program
  .command("serve")
  .description("open a workshop in the browser")
  .option(...dataOption)
  .option("--port <number>", "port on loopback", "4171")
  .option(
    "--recorder-folder <folder>",
    "take in WAV files that appear there; they wait until somebody says of which unit",
  )
  .option("--backup <folder>", "where a copy is kept every day (default: the data folder's name and -backups)")
  .option("--no-backup", "keep no daily copies")
  .addHelpText(
    "after",
    `
Examples:
  stillglow serve
  stillglow serve --data my-workshop --port 0
  stillglow serve --data my-workshop --recorder-folder /media/recorder`,
  )
  .action(async (options) => (await import("./serve.ts")).serve(options));

program
  .command("dossier")
  .description("write a unit's record: one page for the customer in front, every proof behind it")
  .argument("<serial>", "the unit's serial number")
  .option(...dataOption)
  .option("--out <file>", "a .pdf or .html file (default: SERIAL.pdf)")
  .option("--language <tag>", "en, de or pl (default: the one that its order names)")
  .addHelpText(
    "after",
    "\nExamples:\n  stillglow dossier 0417\n  stillglow dossier 0417 --out 0417.html\n  stillglow dossier 0401 --language de",
  )
  .action(async (serial: string, options) => (await import("./dossier.ts")).dossier(serial, options));

program
  .command("labels")
  .description("write labels for units, valves, batches and boards, each with a mark that a scanner reads")
  .argument("<codes...>", "what to label, by its number")
  .option(...dataOption)
  .option("--out <file>", "a .pdf file (default: labels.pdf)")
  .option("--across <number>", "labels across the sheet", "3")
  .option("--down <number>", "labels down the sheet", "8")
  .option("--taken <number>", "labels already taken off the first sheet", "0")
  .option("--valves", "after a batch, a label for each of its valves")
  .addHelpText("after", "\nExamples:\n  stillglow labels 0417 A-121\n  stillglow labels B-35 --valves --taken 5")
  .action(async (codes: string[], options) => (await import("./dossier.ts")).labels(codes, options));

program
  .command("backup")
  .description("copy a workshop, open or not, and read the copy back; older copies are thinned")
  .argument("<folder>", "where copies are kept, one folder each; recordings are shared")
  .option(...dataOption)
  .option("--keep-all", "let no older copy go")
  .addHelpText(
    "after",
    "\nExamples:\n  stillglow backup /media/disk/stillglow\n  stillglow backup copies --data my-workshop",
  )
  .action(async (folder: string, options) => (await import("./backup.ts")).backup(folder, options));

program
  .command("restore")
  .description("put a copy back as a new data folder, once every byte of it was read")
  .argument("<folder>", "where copies are kept")
  .option(...dataOption)
  .option("--copy <name>", "which copy, by its folder's name (default: the newest)")
  .addHelpText(
    "after",
    "\nThe data folder must be empty or not there yet, so that nothing is overwritten.\n\nExamples:\n  stillglow restore copies --data restored\n  stillglow restore copies --copy 2026-11-29T120000Z --data restored",
  )
  .action(async (folder: string, options) => (await import("./backup.ts")).restore(folder, options));

program
  .command("verify")
  .description("read a workshop whole: its chain, its recordings, its photos")
  .option(...dataOption)
  .option("--head <hash>", "a newest hash noted earlier, on a dossier say, that must be in the chain")
  .option("--backup <folder>", "read a copy there instead")
  .option("--copy <name>", "which copy (default: the newest)")
  .addHelpText("after", "\nExamples:\n  stillglow verify --data my-workshop\n  stillglow verify --backup copies")
  .action(async (options) => (await import("./backup.ts")).verify(options));

program
  .command("unit")
  .description("what is proven of a unit, what is missing, and what comes next")
  .argument("<serial>")
  .option(...dataOption)
  .option("--json", "print as JSON")
  .addHelpText("after", "\nExamples:\n  stillglow unit 0417\n  stillglow unit 0417 --json")
  .action(async (serial: string, options) => (await import("./unit.ts")).unit(serial, options));

program
  .command("release")
  .description("release a unit, or say what is missing (exit status 1)")
  .argument("<serial>")
  .option(...dataOption)
  .option("--by <role>", "who releases it", "owner")
  .option("--json", "print as JSON")
  .addHelpText("after", "\nExamples:\n  stillglow release 0417\n  stillglow release 0417 --by owner --json")
  .action(async (serial: string, options) => (await import("./release.ts")).release(serial, options));

program
  .command("probe")
  .description("a unit's test points: windows of good units, readings, suspects and the next probe")
  .argument("<serial>")
  .option("--read <point=value...>", 'readings to write down first, such as "left V1 plate=142.3"')
  .option("--kind <what>", "dc, resistance (dead circuit) or gain", "dc")
  .option("--instrument <id>", "the meter it was read with")
  .option("--doubt <half-width>", "95 % half-width of each (default: as of an ordinary meter)")
  .option("--by <role>", "who read it", "bench technician")
  .option(...dataOption)
  .option("--json", "print as JSON")
  .addHelpText(
    "after",
    `
Examples:
  stillglow probe 0417
  stillglow probe 0417 --kind resistance --instrument meter-B --read "HT=47.2e3"`,
  )
  .action(async (serial: string, options) => (await import("./probe.ts")).probe(serial, options));

program
  .command("tray")
  .description("trays of valves: verdicts around the heat run, sets for the open orders, readings from a table")
  .argument("[batch]", "a tray; without it, all")
  .option("--sets", "propose sets for the open orders")
  .option("--shelf", "choose sets from the whole shelf of the type")
  .option("--in <table>", "take readings from a table first")
  .option("--column <figure=column...>", "which column holds what: valve, section, plate_mA, leakage_uA, …")
  .option("--phase <session>", "cold or hot, where no column says so")
  .option("--instrument <id>", "the tester the table was read with")
  .option("--by <role>", "who read it", "bench technician")
  .option(...dataOption)
  .option("--json", "print as JSON")
  .addHelpText(
    "after",
    `
Examples:
  stillglow tray
  stillglow tray B-31 --sets
  stillglow tray B-36 --in hot.csv --phase hot --instrument valve-tester --column valve=No section=S plate_mA=Ia`,
  )
  .action(async (batch: string | undefined, options) => (await import("./tray.ts")).tray(batch, options));

program
  .command("promises")
  .description("the promise book; what a change does to every date; what to order and by when; what was kept")
  .option("--what-if <change...>", "a change: place:NAME=+1, holiday:DATE, late:PART=DAYS, fail:SERIAL=STEP, …")
  .option("--ordering", "parts and valves still to be ordered, and by when")
  .option("--kept", "whether dates were kept as often as was said")
  .option("--give <order>", "give a date for an order, written down with what it was worked out from")
  .option("--date <day>", "the day given (default: the one that --share of the runs keep)")
  .option("--share <percent>", "50, 80 or 95", "80")
  .option("--by <role>", "who gives it", "owner")
  .option(...dataOption)
  .option("--json", "print as JSON")
  .addHelpText(
    "after",
    `
Examples:
  stillglow promises
  stillglow promises --what-if "place:hot plate=24h"
  stillglow promises --what-if holiday:2027-03-17 "away:woodworker=2027-03-22..2027-03-26"
  stillglow promises --ordering
  stillglow promises --kept
  stillglow promises --give Q-254`,
  )
  .action(async (options) => (await import("./promises.ts")).promises(options));

program
  .command("look-back")
  .description("from where faults were found to where they could have been, in hours and money")
  .option(...dataOption)
  .option("--json", "print as JSON")
  .addHelpText("after", "\nExamples:\n  stillglow look-back\n  stillglow look-back --json")
  .action(async (options) => (await import("./promises.ts")).lookBack(options));

program
  .command("timber")
  .description("the timber shelf, a piece's course, the case of a unit through its year, runs, sawing plan, weighings")
  .argument("[piece]", "a piece; without it, the shelf")
  .option("--case <serial>", "the case of a unit, judged by the air it goes to")
  .option("--runs", "what is in the warm places, what goes in next, and what to weigh")
  .option("--cuts", "the sawing plan: which piece of which board becomes which panel")
  .option("--weigh <piece=grams...>", "weighings to write down first")
  .option("--instrument <id>", "the balance they were read on", "balance")
  .option("--by <role>", "who weighed", "woodworker")
  .option(...dataOption)
  .option("--json", "print as JSON")
  .addHelpText(
    "after",
    `
Examples:
  stillglow timber
  stillglow timber A-125
  stillglow timber --case 0590
  stillglow timber --runs
  stillglow timber --cuts
  stillglow timber --weigh A-125=3921,4 A-126=3902,8`,
  )
  .action(async (piece: string | undefined, options) => (await import("./timber.ts")).timber(piece, options));

program
  .command("versions")
  .description("the prototype notebook: versions of a model side by side, a value on trial, one made a revision")
  .argument("[model]", "a model; without it, all models under design")
  .option(...dataOption)
  .option("--yield", "windows and yield over the shop's own valves too")
  .option("--of <version>", "the version that --try and --draw start from (default: the newest)")
  .option("--try <part.field=value>", "put one value on trial, such as R4.ohm=39000")
  .option("--text <version>", "print a version's net list, a part to a line")
  .option("--draw <file>", "check a net list and print it as an entry for 'stillglow enter'")
  .option("--as <version>", "name of the version drawn", "1")
  .option("--why <words>", "why it was drawn")
  .option("--release <version>", "print a version as a revision, with its claims, for 'stillglow enter'")
  .option("--revision <name>", "name of the revision (default: the next letter)")
  .option("--by <role>", "who draws or releases it", "owner")
  .option("--json", "print as JSON")
  .addHelpText(
    "after",
    `
Examples:
  stillglow versions
  stillglow versions Holm --draw holm.json --as 1 --why "a first drawing" | stillglow enter
  stillglow versions Holm --try R2.ohm=33000 --yield
  stillglow versions Holm --release 2 --revision A | stillglow enter`,
  )
  .action(async (model: string | undefined, options) => (await import("./versions.ts")).versions(model, options));

for (const [page, description] of [
  ["day", "the day of each pair of hands: next check and why, and what to begin before going home"],
  ["instruments", "instruments on trial: where each stands, which drift, and the proofs that fell with one"],
  ["charts", "what units left with, charted over their serial numbers: what stands out of its model's own scatter"],
  ["costs", "what a unit of each model costs, and what each choice of a customer really costs"],
  ["checks", "where checks belong, by the faults of the past"],
] as const) {
  program
    .command(page)
    .description(description)
    .option(...dataOption)
    .option("--json", "print as JSON")
    .addHelpText("after", `\nExample:\n  stillglow ${page} --data my-workshop`)
    .action(async (options) => (await import("./office.ts")).office(page, options));
}

program
  .command("gauge")
  .description(
    "gauge studies: what part of a reading is the instrument and the hands, and what that leaves of a window",
  )
  .argument("[table]", "a study to work out: columns part, who, value; without it, those written down")
  .option("--low <limit>", "lower limit of the window")
  .option("--high <limit>", "upper limit of the window")
  .option("--instrument <id>", "write the study down, as read with this instrument")
  .option("--quantity <name>", "what it reads, with its unit: level_V")
  .option("--at <instant>", "when it was read (default: now)")
  .option("--by <role>", "who writes it down", "bench technician")
  .option(...dataOption)
  .option("--json", "print as JSON")
  .addHelpText(
    "after",
    `
Examples:
  stillglow gauge
  stillglow gauge study.csv --low 7.5 --high 10.5
  stillglow gauge study.csv --instrument valve-tester --quantity plate_mA`,
  )
  .action(async (table: string | undefined, options) => (await import("./gauge.ts")).gauge(table, options));

program
  .command("safety")
  .description("the safety sheet of a unit; without one, the limits adopted for each market")
  .argument("[unit]", "serial number")
  .option(...dataOption)
  .option("--json", "print as JSON")
  .addHelpText("after", "\nExamples:\n  stillglow safety 0417\n  stillglow safety")
  .action(async (unit: string | undefined, options) => (await import("./office.ts")).safety(unit, options));

program
  .command("enter")
  .description("write evidence down: JSON Lines of entries from stdin or a file, all or none")
  .option(...dataOption)
  .option("--in <file>", "read the entries from a file")
  .option("--json", "print as JSON")
  .addHelpText(
    "after",
    `
Examples:
  stillglow enter < readings.jsonl
  echo '{"at":"2027-03-03T09:00:00Z","by":"bench technician","kind":"reading","subject":{"unit":"0417"},
    "quantity":"ht_V","value":231.4,"doubt":0.6,"instrument":"meter-1"}' | tr -d '\\n' | stillglow enter`,
  )
  .action(async (options) => (await import("./enter.ts")).enter(options));

program
  .command("record")
  .description("take a WAV recording of a unit into the workshop, with its conditions")
  .argument("<wav>", "the recording")
  .requiredOption("--unit <serial>", "the unit recorded")
  .requiredOption("--full-scale <Vpk>", "volts at digital full scale")
  .requiredOption("--supply <source>", "building, or regenerated with its frequency, such as regenerated:57")
  .option("--channels <names>", "what each channel holds, in order", "left,right")
  .option("--valve <position=id...>", "a valve fitted otherwise than the workshop's record says, such as V2=T-118")
  .option("--input <how>", "what the unit's input is joined to", "shorted")
  .option("--instrument <id>", "the recorder", "recorder-1")
  .option("--purpose <what>", "hum, tone, sweep, noise, tap or supply", "hum")
  .option("--regenerator <id>", "the regenerator it ran on, so that its trials speak for it")
  .option("--at <instant>", "when it was taken (default: now)")
  .option("--by <role>", "who took it", "bench technician")
  .option(...dataOption)
  .option("--json", "print as JSON")
  .addHelpText(
    "after",
    `
Examples:
  stillglow record house.wav --unit 0417 --full-scale 0.5 --supply building
  stillglow record clean.wav --unit 0417 --full-scale 0.5 --supply regenerated:57 --valve V2=T-131`,
  )
  .action(async (wav: string, options) => (await import("./record.ts")).record(wav, options));

// A reader that has seen enough, such as head, ends the writing and nothing else.
process.stdout.on("error", (fault: NodeJS.ErrnoException) => {
  if (fault.code !== "EPIPE") throw fault;
  process.exit(0);
});

try {
  await program.parseAsync();
} catch (error) {
  process.exitCode = report(error);
}

function report(error: unknown): number {
  if (error instanceof CommanderError) return error.exitCode === 0 ? 0 : 2;
  if (error instanceof BadInput) {
    process.stderr.write(`stillglow: ${error.path === "" ? "" : `${error.path}: `}${error.message}\n`);
    return 2;
  }
  const known = error as { message?: string; code?: string };
  if (process.env.STILLGLOW_DEBUG) process.stderr.write(`${(error as Error).stack}\n`);
  process.stderr.write(`stillglow: ${known.message ?? String(error)}\n`);
  return isWorkshopTrouble(error) ? 2 : 70;
}

/** Trouble with the data folder (locked, full, damaged) names itself and its mend; it is not a fault of the program. */
function isWorkshopTrouble(error: unknown): boolean {
  return error instanceof Error && error.name.startsWith("Store");
}
