import { Command, CommanderError } from 'commander'
import { isBrokenPipe, letReaderGo } from './broken-pipe.js'
import { addAmend } from './commands/amend.js'
import { addCheck } from './commands/check.js'
import { addClipboard } from './commands/clipboard.js'
import { addCompletion } from './commands/completion.js'
import { addDemo } from './commands/demo.js'
import { addDue } from './commands/due.js'
import { addExplain } from './commands/explain.js'
import { addExport } from './commands/export.js'
import { addHistory } from './commands/history.js'
import { addHook } from './commands/hook.js'
import { addIdentify } from './commands/identify.js'
import { addImport } from './commands/import.js'
import { addLabels } from './commands/labels.js'
import { addLayout } from './commands/layout.js'
import { addLog } from './commands/log.js'
import { addMan } from './commands/man.js'
import { addMap } from './commands/map.js'
import { addMix } from './commands/mix.js'
import { addNew } from './commands/new.js'
import { addNotice } from './commands/notice.js'
import { addPrecheck } from './commands/precheck.js'
import { addReport } from './commands/report.js'
import { addReview } from './commands/review.js'
import { addRulebook } from './commands/rulebook.js'
import { addRules } from './commands/rules.js'
import { addSds } from './commands/sds.js'
import { addVisit } from './commands/visit.js'
import { rootCommand } from './root-command.js'
import type { ExitCode, Here, Runner } from './runner.js'
import type { Surroundings } from './terminal.js'
import { UsageError } from './usage-error.js'
import { version } from './version.js'

/**
 * Runs one command line. Returns the exit code: 0 done, 1 problems found, 2 called wrongly or something could
 * not be checked. The result goes to stdout and nothing else does.
 */
export async function main(args: readonly string[], surroundings: Surroundings): Promise<ExitCode> {
  let exitCode: ExitCode = 0
  const run: Runner =
    (work) =>
    async (...given) => {
      const flags = given.at(-1) instanceof Command ? (given.at(-1) as Command).optsWithGlobals() : {}
      exitCode = await work(await hereFor(args, surroundings, flags.color as boolean | undefined), given)
    }
  const program = programWith(run, surroundings)
  letReaderGo(surroundings.stdout)
  try {
    await program.parseAsync([...args], { from: 'user' })
    return exitCode
  } catch (error) {
    return failed(error, surroundings)
  }
}

/** Every command, with its options and what help says of them. */
export function programWith(run: Runner, surroundings: Surroundings): Command {
  const program = rootCommand(surroundings)
  addCheck(program, run)
  addReport(program, run)
  addDue(program, run)
  addHistory(program, run)
  addExport(program, run)
  addReview(program, run)
  addClipboard(program, run)
  addLabels(program, run)
  addSds(program, run)
  addMix(program, run)
  addPrecheck(program, run)
  addIdentify(program, run)
  addLayout(program, run)
  addMap(program, run)
  addNotice(program, run)
  addExplain(program, run)
  addRules(program, run)
  addRulebook(program, run)
  addHook(program, run)
  addNew(program, run)
  addLog(program, run)
  addAmend(program, run)
  addVisit(program, run)
  addImport(program, run)
  addDemo(program, run)
  addCompletion(program, run)
  addMan(program, run)
  for (const command of program.commands) command.exitOverride().copyInheritedSettings(program)
  return program
}

async function hereFor(
  args: readonly string[],
  surroundings: Surroundings,
  color: boolean | undefined,
): Promise<Here> {
  const { painterFor } = await import('./terminal.js')
  return {
    args,
    stdout: surroundings.stdout,
    stderr: surroundings.stderr,
    env: surroundings.env,
    cwd: () => surroundings.cwd(),
    ...(surroundings.looked ? { looked: surroundings.looked } : {}),
    painter: painterFor(surroundings.stdout, surroundings.env, color),
  }
}

/** Known mistakes are told with their remedy; anything else is the program's own fault and says so. */
function failed(error: unknown, { stderr }: Surroundings): ExitCode {
  if (error instanceof CommanderError) return error.exitCode === 0 ? 0 : 2
  if (error instanceof UsageError) {
    stderr.write(`doorsweep: ${error.message}\n`)
    return 2
  }
  if (isBrokenPipe(error)) return 0
  const stack = error instanceof Error ? error.stack : String(error)
  stderr.write(
    `doorsweep: this is a fault of the program, not of your records. Please report it with these lines.\ndoorsweep ${version()}, node ${process.version}\n${stack}\n`,
  )
  return 2
}
