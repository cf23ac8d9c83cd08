import { Argument, Command, CommanderError, InvalidArgumentError, Option } from 'commander';
import type { Paths } from '../config.ts';
import { defaultPort, version } from '../config.ts';
import { dayFromIso, isoFromDay } from '../../models/schema/day.ts';
import { recordKinds } from '../../models/schema/kinds.ts';
import { StoreError } from '../store/openStore.ts';
import { assess } from './assess.ts';
import { backup, restore } from './backup.ts';
import { held, heldWords } from './held.ts';
import { hindcast } from './hindcast.ts';
import { budget } from './budget.ts';
import { intake } from './intake.ts';
import { plan } from './plan.ts';
import { policy } from './policy.ts';
import { Refusal } from './refusal.ts';
import { serve } from './serve.ts';
import { template } from './template.ts';
import { undo } from './undo.ts';
import { verify } from './verify.ts';

const isoDay = (text: string): string => {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text) || isoFromDay(dayFromIso(text)) !== text)
    throw new InvalidArgumentError(`must be a date like 2026-03-31, got ${text}`);
  return text;
};

const isoDays = (text: string): string[] => text.split(',').map((part) => isoDay(part.trim()));

const wholeNumber = (low: number, high: number) => (text: string) => {
  const value = Number(text);
  if (!Number.isInteger(value) || value < low || value > high)
    throw new InvalidArgumentError(`must be a whole number from ${low} to ${high}, got ${text}`);
  return value;
};

/** Plain decimal money to whole cents. */
const plainMoney = (text: string): number => {
  if (!/^\d{1,12}(\.\d{1,2})?$/.test(text))
    throw new InvalidArgumentError(`must be plain decimal money like 20000 or 1250.50, got ${text}`);
  const [whole, part = ''] = text.split('.');
  return 100 * Number(whole) + Number(part.padEnd(2, '0'));
};

const unitList = (text: string): string[] => text.split(',').filter((name) => name.trim() !== '');

/**
 * Runs one verb of the command line.
 * @param pathsFor paths of the installation, given --store
 * @returns 0 done, 1 refused (one line on stderr), 2 wrong usage
 */
export async function runCommand(
  words: readonly string[],
  pathsFor: (store: string | undefined) => Paths,
): Promise<number> {
  const program = new Command('sumpwise')
    .description('Fleet oil and wear: drain intervals, wear estimates, records')
    .version(version)
    .exitOverride()
    .showHelpAfterError('(sumpwise --help lists the verbs)');
  const verb = (name: string, description: string): Command =>
    program
      .command(name)
      .description(description)
      .option('--store <file>', 'the store (default var/sumpwise.sqlite)')
      .option('--json', 'print one JSON document on stdout and nothing else', false)
      .exitOverride();

  verb('serve', 'the web application')
    .option('--host <address>', 'address to listen on', '127.0.0.1')
    .option('--port <number>', 'port to listen on', wholeNumber(0, 65535), defaultPort)
    .option('--watch <folder>', 'take in whatever is laid into this folder')
    .addOption(
      new Option('--corrected <how>', 'what a corrected file laid into it does; else it is refused').choices([
        'replace',
        'add',
      ]),
    )
    .action(async (options) => serve(pathsFor(options.store), options));
  verb('intake', 'brings CSV, TSV or XLSX files in')
    .argument('<file...>', 'files, in any order')
    .addOption(
      new Option('--kind <kind>', 'what the rows are, when the file does not say').choices(recordKinds),
    )
    .option('--map <file>', 'a saved column map')
    .addOption(
      new Option('--measures <measures>', 'units of measure of columns that do not say').choices([
        'metric',
        'us',
      ]),
    )
    .addOption(new Option('--date-order <order>', 'order of day and month').choices(['ymd', 'dmy', 'mdy']))
    .addOption(
      new Option('--corrected <how>', 'what a corrected version of an earlier file does').choices([
        'replace',
        'add',
      ]),
    )
    .option('--dry-run', 'say what would happen and change nothing', false)
    .option('--held <file>', 'write held rows with reasons to this CSV file')
    .action(async (files, options) => intake(pathsFor(options.store), files, options));
  verb('held', 'lists rows that wait for a decision, and decides them')
    .addArgument(new Argument('[action]', 'what to do').choices(heldWords).default('list'))
    .argument('[row...]', 'numbers of rows, as the list has them')
    .option('--code <code>', 'all rows held for this reason')
    .option('--unit <number>', 'all rows of this unit')
    .addOption(new Option('--state <state>', 'rows that stand so').choices(['held', 'accepted', 'rejected']))
    .option('--set <column=value...>', 'with mend: what to write into the cells of one row')
    .option('--by <name>', 'who decides (default: the user of this computer)')
    .action(async (action, rows, options) => held(pathsFor(options.store), action, rows, options));
  verb('undo', 'takes an intake back whole')
    .argument('<batch>', 'the batch that intake printed')
    .action(async (batch, options) => undo(pathsFor(options.store), batch, options));
  verb('template', 'writes an empty table to fill in')
    .addArgument(new Argument('<kind>', 'what its rows are').choices(recordKinds))
    .argument('<file>', 'a name that ends in .csv or .xlsx')
    .action((kind, file, options) => template(kind, file, options));
  verb('backup', 'copies the whole store to a file, while it is in use')
    .argument('<file>', 'where the copy goes')
    .action(async (file, options) => backup(pathsFor(options.store), file, options));
  verb('restore', 'puts a backup in the place of the store; what was there is kept beside it')
    .argument('<file>', 'a file that backup wrote')
    .action(async (file, options) => restore(pathsFor(options.store), file, options));
  verb('assess', 'estimates and calls for every unit')
    .option('--as-of <date>', 'what was known on this day (default today)', isoDay)
    .option('--horizon-days <days>', 'horizon of the chance of failure', wholeNumber(7, 1825))
    .option('--unit <number>', 'one unit only')
    .option('--csv <file>', 'write a table to this CSV file')
    .action(async (options) => assess(pathsFor(options.store), options));
  verb('budget', 'what to renew with an amount of money, and what it avoids')
    .requiredOption('--amount <money>', 'plain decimal, in the currency of the settings', plainMoney)
    .requiredOption('--months <number>', 'how long the money is for', wholeNumber(1, 60))
    .option('--as-of <date>', 'what was known on this day (default today)', isoDay)
    .option(
      '--must-do <units>',
      'units that must be renewed, separated by commas; UNIT:look or UNIT:clean for those',
      unitList,
    )
    .option(
      '--must-not <units>',
      'units to leave alone, separated by commas; UNIT:renew for that action alone',
      unitList,
    )
    .option('--seed <number>', 'seed of the simulated futures', wholeNumber(0, 2 ** 31))
    .option('--pdf <file>', 'write the report to this PDF file')
    .option('--xlsx <file>', 'write the workbook to this XLSX file')
    .action(async (options) => budget(pathsFor(options.store), options));
  verb('hindcast', 'predicts from days in the past and scores it against what followed')
    .requiredOption('--origins <dates>', 'days to predict from, with commas between', isoDays)
    .option('--horizon-days <days>', 'horizon of the chance of failure', wholeNumber(7, 1825))
    .action(async (options) => hindcast(pathsFor(options.store), options));
  verb('plan', 'the shop plan: visits with bay, person and time')
    .requiredOption('--from <date>', 'first day of the plan', isoDay)
    .requiredOption('--weeks <number>', 'how long the plan is', wholeNumber(1, 104))
    .option('--as-of <date>', 'what was known on this day (default today)', isoDay)
    .option('--ics <file>', 'write the visits to this calendar file')
    .option('--csv <file>', 'write a table to this CSV file')
    .action(async (options) => plan(pathsFor(options.store), options));
  verb('policy', 'the cheapest drain interval per duty group')
    .option('--duty <name>', 'one duty group only')
    .option('--as-of <date>', 'what was known on this day (default today)', isoDay)
    .action(async (options) => policy(pathsFor(options.store), options));
  verb('verify', 'checks that the store is whole and every row is accounted for').action(async (options) =>
    verify(pathsFor(options.store), options),
  );

  try {
    await program.parseAsync([...words], { from: 'user' });
    return 0;
  } catch (error) {
    if (error instanceof CommanderError) return error.exitCode === 0 ? 0 : 2;
    if (error instanceof Refusal || error instanceof StoreError) {
      if (error.message !== '') process.stderr.write(`${error.message}\n`);
      return 1;
    }
    process.stderr.write(`Something in the program failed: ${(error as Error).stack ?? String(error)}\n`);
    return 1;
  }
}
