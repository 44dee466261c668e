/**
 * The command line: reads arguments, calls, prints. What a command needs is loaded when it runs, so that `--help` costs
 * nothing. Exit codes stand in outcome.ts and at the foot of the help.
 */
import { Command, type Option } from 'commander';
import packageFile from '../../package.json' with { type: 'json' };
import { CAUTION } from '../core/plan/plan.ts';
import { EXIT, reportFailure, WrongUsage } from './outcome.ts';

const exitCodes = `
Exit codes: ${EXIT.done} done; ${EXIT.refused} refused: faults in the input, or values outside a range; ${EXIT.usage} wrong command line;
${EXIT.cannotBeFlown} it cannot be flown (plan, manoeuvre); ${EXIT.defect} a defect of the program.
With --json, stdout holds one JSON object: the result, or { "error": { kind, message, faults } }.

${CAUTION}`;

function commandLine(): Command {
  const program = new Command('ramrise')
    .description(packageFile.description)
    .version(packageFile.version)
    .exitOverride()
    .showSuggestionAfterError()
    .addHelpText('after', exitCodes)
    .hook('preAction', (_program, command) => requireOptions(command));

  addPlan(program);
  addAccelerate(program);
  addCompare(program);
  addContact(program);
  addManoeuvre(program);
  addRules(program);
  addTankers(program);
  addReach(program);
  addAirborne(program);
  addAir(program);
  addTrack(program);
  addDay(program);
  addDeck(program);
  addBalance(program);
  addInlet(program);
  addSchema(program);
  addServe(program);
  return program;
}

/**
 * Options that a command cannot do without. Commander's own check comes before that for unknown options, so that a
 * misspelt option would be reported as missing; this one comes after.
 */
const required = new Set<Option>();

function need(command: Command, flags: string, description: string): Command {
  const option = command.createOption(flags, `${description} (required)`);
  required.add(option);
  return command.addOption(option);
}

function requireOptions(command: Command): void {
  const missing = command.options.filter(
    (option) => required.has(option) && command.getOptionValue(option.attributeName()) === undefined,
  );
  if (missing.length === 0) return;
  const names = missing.map((option) => option.flags).join(' and ');
  throw new WrongUsage(`${command.name()} needs ${names}; see ramrise ${command.name()} --help`);
}

function addPlan(program: Command): void {
  program
    .command('plan')
    .description(
      'a sortie as a plan: plan.json, cards.pdf, charts as SVG with their numbers as CSV, the track as GeoJSON and GPX, and a summary',
    )
    .argument('<sortie>', 'a sortie file, such as examples/long-loop.yaml')
    .option('--out <folder>', 'where the files are written (required without --slip)')
    .option('--slip <range>', 'what later take-offs cost, such as 0..120min/10min; slip.csv and slip.svg')
    .option(
      '--quick',
      'without what is flown after the plan: rules of the day, tankers in trouble, reach, inlets',
    )
    .option('--json', 'print JSON: whether it can be flown, the answers, the files')
    .action(async (sortie, options) => (await import('./plan.ts')).plan(sortie, options));
}

function addAccelerate(program: Command): void {
  program
    .command('accelerate')
    .description(
      'how to go through the drag rise: the pushover of least fuel inside all limits, the best level acceleration, and fuel by heading',
    )
    .argument('<sortie>', 'a sortie file')
    .option('--out <folder>', 'where acceleration-leg-N.svg and .csv are written')
    .option('--json', 'print JSON in SI units')
    .action(async (sortie, options) => (await import('./accelerate.ts')).accelerate(sortie, options));
}

function addCompare(program: Command): void {
  program
    .command('compare')
    .description(
      'what changed between two plans: fuel, time and margins, split by cause where the inputs they name are found',
    )
    .argument('<old>', 'a plan.json')
    .argument('<new>', 'a plan.json')
    .option('--out <folder>', 'where compare.svg and compare.csv are written')
    .option('--json', 'print JSON in SI units')
    .action(async (from, to, options) => (await import('./compare.ts')).compare(from, to, options));
}

function addManoeuvre(program: Command): void {
  program
    .command('manoeuvre')
    .description(
      'a manoeuvre of a sortie judged before it is flown; without --bank and --loadFactor what may be pulled, how slow, and what a push costs, by fuel on board; without --altitude and --speed the turns of the plan, each where it comes nearest to the stall warning',
    )
    .argument('<sortie>', 'a sortie file, such as examples/long-loop.yaml')
    .option('--altitude <altitude>', 'pressure altitude, such as "3000 ft"')
    .option('--speed <speed>', '"220 KCAS", "250 KEAS" or "0.8 Mach"')
    .option('--fuel <mass>', 'on board, such as "30000 kg"; full tanks if left out')
    .option('--bank <angle>', 'of a level turn, such as "60 deg"')
    .option('--loadFactor <factor>', 'such as "1.4 g"; that of level flight at the bank if left out')
    .option('--at <position>', 'where, such as "45.5N 85.0W"; over the base of the take-off if left out')
    .option('--time <time>', 'in UTC, such as 2020-02-23T16:00Z; that of the take-off if left out')
    .option('--elevation <height>', 'of the ground, such as "310 ft"; that of the base if left out')
    .option('--json', 'print JSON in SI units')
    .action(async (sortie, options) => (await import('./manoeuvre.ts')).manoeuvre(sortie, options));
}

function addContact(program: Command): void {
  program
    .command('contact')
    .description(
      'in contact: thrust needed and there against mass taken, the burner to light and when, rudder, descent, turns',
    )
    .argument('<sortie>', 'a sortie file, such as examples/long-loop.yaml')
    .option('--tanker <name>', 'one tanker of the sortie; all if left out')
    .option('--json', 'print JSON in SI units')
    .action(async (sortie, options) => (await import('./contact.ts')).contact(sortie, options));
}

function addRules(program: Command): void {
  program
    .command('rules')
    .description(
      "the day's own rules of thumb: what a degree, ten knots, a percent cost at each contact and the landing, and where the sortie fails",
    )
    .argument('<sortie>', 'a sortie file, such as examples/long-loop.yaml')
    .option('--json', 'print JSON in SI units')
    .action(async (sortie, options) => (await import('./rules.ts')).rules(sortie, options));
}

function addTankers(program: Command): void {
  program
    .command('tankers')
    .description(
      'the sortie with each tanker absent, with half its fuel, late: recovery, reserve, last minute to decide',
    )
    .argument('<sortie>', 'a sortie file, such as examples/long-loop.yaml')
    .option('--pairs', 'two tankers in trouble as well')
    .option('--json', 'print JSON in SI units')
    .action(async (sortie, options) => (await import('./tankers.ts')).tankers(sortie, options));
}

function addReach(program: Command): void {
  program
    .command('reach')
    .description(
      'where the sortie can still go after each failure: fuel on arrival minute by minute, when each choice closes, an unstart',
    )
    .argument('<sortie>', 'a sortie file, such as examples/long-loop.yaml')
    .option('--at <time>', 'one moment only, as h:mm since take-off')
    .option('--failure <key>', 'one failure only, minute by minute, such as oneEngine')
    .option('--json', 'print JSON in SI units')
    .action(async (sortie, options) => (await import('./reach.ts')).reach(sortie, options));
}

function addAir(program: Command): void {
  const command = program
    .command('air')
    .description(
      'every air-data quantity at an altitude and a speed, on a standard, an offset or a real day',
    );
  need(command, '--altitude <altitude>', 'pressure altitude, such as "80000 ft"');
  need(command, '--speed <speed>', '"2.9 Mach", "430 KEAS", "340 KCAS" or "1650 KTAS"');
  command
    .option('--offset <difference>', 'offset from the standard temperature, such as "5 K" or "-3 K"')
    .option('--day <day>', 'a day of MIL-STD-210A: hot, cold, tropical or polar')
    .option('--weather <file>', 'a weather file, read at --at and --time')
    .option('--at <position>', '"45.5N 85.0W" or "45.5,-85"')
    .option('--time <time>', 'in UTC, such as 2020-02-23T16:00Z')
    .option('--member <number>', 'which member of an ensemble')
    .option('--json', 'print JSON in SI units')
    .action(async (options) => (await import('./air.ts')).air(options));
}

function addAirborne(program: Command): void {
  program
    .command('airborne')
    .description(
      'readings of a flight against its plan: whether the fuel is as planned, since when not, why; flown on: fuel at each gate, reach, what to fly, limits',
    )
    .argument('<plan>', 'a plan.json')
    .option(
      '--readings <source>',
      'a file of CSV or JSON lines, a local socket or named pipe, or - to type or pipe them',
      '-',
    )
    .option('--take-off <time>', 'as flown, in UTC, where it was not that of the plan')
    .option('--log <file>', 'where readings are kept; airborne.log beside the plan if left out')
    .option('--json', 'print JSON in SI units, a line for each answer')
    .action(async (path, options) => (await import('./airborne.ts')).airborne(path, options));
}

function addTrack(program: Command): void {
  const command = program
    .command('track')
    .description('the geodesic between two positions on the WGS-84 ellipsoid: length and bearings');
  need(command, '--from <position>', '"45.5,-85", "48.1N 80.0W" or "48 06 00N 080 00 00W"');
  need(command, '--to <position>', 'likewise');
  command
    .option('--json', 'print JSON: metres and degrees')
    .action(async (options) => (await import('./track.ts')).track(options));
}

function addDay(program: Command): void {
  program
    .command('day')
    .description(
      'the air of a weather file: at a place and altitude, as a column (without --altitude), or what the file holds (without --at)',
    )
    .argument('<file>', 'NetCDF or GRIB 2 on pressure levels, or soundings: IGRA 2, CSV with units')
    .option('--at <position>', '"45.5,-85" or "45.5N 85.0W"')
    .option('--altitude <altitude>', 'pressure altitude, such as "60000 ft"')
    .option('--time <time>', 'in UTC, such as 2020-02-23T16:00Z; not needed where the file has one time')
    .option('--member <number>', 'which member of an ensemble')
    .option('--json', 'print JSON in SI units')
    .action(async (file, options) => (await import('./day.ts')).day(file, options));
}

function addDeck(program: Command): void {
  program
    .command('deck')
    .description('aircraft data')
    .command('check')
    .description('what a deck is and covers, and every fault and doubt in it with file and line')
    .argument('<folder>', 'a folder with deck.yaml and its tables')
    .option('--json', 'print JSON')
    .action(async (folder, options) => (await import('./deck.ts')).checkDeck(folder, options));
}

function addBalance(program: Command): void {
  program
    .command('balance')
    .description(
      'centre of gravity and tanks over fuel and Mach; of a sortie also in contact, by tanker and to dump',
    )
    .argument('<sortie or deck>', 'a sortie file, or a folder with deck.yaml')
    .option('--fuel <mass>', 'of one loading, such as "20000 kg"')
    .option('--mach <mach>', 'such as "2.85 Mach"; several usual ones if left out')
    .option('--json', 'print JSON in SI units')
    .action(async (path, options) => (await import('./balance.ts')).balance(path, options));
}

function addInlet(program: Command): void {
  program
    .command('inlet')
    .description(
      'what inlets off their schedule cost on each supersonic leg, and the error with which its end is out of reach',
    )
    .argument('<sortie>', 'a sortie file')
    .option('--json', 'print JSON in SI units')
    .action(async (sortie, options) => (await import('./inlet.ts')).inlet(sortie, options));
}

function addSchema(program: Command): void {
  program
    .command('schema')
    .description('the JSON Schema of a file that is written by hand, for completion in an editor')
    .argument('<kind>', '"sortie" or "deck"')
    .option('--json', 'no difference: a schema is JSON')
    .action(async (kind) => (await import('./schema.ts')).schema(kind));
}

function addServe(program: Command): void {
  program
    .command('serve')
    .description('the application in the browser, for this machine alone, without any other connection')
    .option('--port <number>', 'the port of 127.0.0.1; 4747, or a free one, if left out')
    .option('--open', 'open it in the browser of the desktop, where there is one')
    .option('--json', 'print JSON: the address')
    .action(async (options) => (await import('./serve.ts')).serve(options));
}

// A reader that has seen enough, such as `head`, closes the pipe: that is no fault.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code !== 'EPIPE') throw error;
  process.exit();
});

const json = process.argv.includes('--json');
try {
  process.exitCode = EXIT.done;
  await commandLine().parseAsync();
} catch (error) {
  process.exitCode = reportFailure(error, json);
}
