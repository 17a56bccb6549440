import type { Command } from 'commander'
import { InvalidArgumentError } from 'commander'
import type { Runner } from '../runner.js'
import { UsageError } from '../usage-error.js'

interface DemoFlags {
  readonly sites: number
  readonly years: number
  readonly seed: number
  readonly until?: string
  readonly clean?: boolean
}

export function addDemo(program: Command, run: Runner): void {
  program
    .command('demo')
    .summary('write a realistic ledger of an invented district')
    .description(
      'Writes a ledger of an invented district, with git history, from a stated model: infestations grow, are treated or repaired and fade, traps go missing, sheets are lost.',
    )
    .argument('<dir>', 'folder to write; it must not exist, or be empty')
    .option('--sites <n>', 'how many schools', wholeFrom(1, 2000), 5)
    .option('--years <n>', 'how many school years', wholeFrom(1, 30), 2)
    .option('--seed <n>', 'the same seed gives the same ledger', wholeFrom(0, 2 ** 31 - 1), 1)
    .option('--until <date>', 'last day of the ledger; today if not said')
    .option('--clean', 'a ledger without gaps')
    .action(
      run(async (here, [dir, given]) => {
        const flags = given as DemoFlags
        const { dayOf, isoOf } = await import('../../measure/calendar.js')
        const { today } = await import('../today.js')
        const { demoLedger } = await import('../../writing/demo/ledger.js')
        const { writeDemo } = await import('../../writing/demo/write-demo.js')
        const { resolve } = await import('node:path')
        const until = flags.until === undefined ? today('UTC', here) : dayOf(flags.until)
        if (until === null)
          throw new UsageError(`--until ${flags.until}: write a day as year-month-day, such as 2026-06-30.`)
        const folder = resolve(here.cwd(), String(dir))
        const written = await writeDemo(
          folder,
          demoLedger({
            sites: flags.sites,
            years: flags.years,
            seed: flags.seed,
            until,
            clean: flags.clean === true,
          }),
          here.env,
        )
        if ('refused' in written)
          throw new UsageError(
            `${dir} ${written.refused === 'not empty' ? 'is not empty' : 'is not a folder'}; name a folder that does not exist yet.`,
          )
        if ('failed' in written)
          throw new UsageError(`${dir} could not be written: ${written.failed}. Nothing is left of it.`)
        if (written.history === 'not written')
          here.stderr.write('There is no git here, so the ledger has no history.\n')
        here.stdout.write(
          `${dir}: ${written.files} files, ${written.commits} commits, until ${isoOf(until)}. Next: doorsweep check ${dir} --as-of ${isoOf(until)}\n`,
        )
        return 0
      }),
    )
}

function wholeFrom(least: number, most: number): (text: string) => number {
  return (text) => {
    const number = Number(text)
    if (!/^\d+$/.test(text) || number < least || number > most)
      throw new InvalidArgumentError(`a whole number from ${least} to ${most}.`)
    return number
  }
}
