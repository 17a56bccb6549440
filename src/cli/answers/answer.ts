import { createHash } from 'node:crypto'
import { resolve } from 'node:path'
import type { CacheFolder } from '../../files/cache-folder.js'
import { cacheFolder } from '../../files/cache-folder.js'
import { workTreeLookedAtOnce } from '../../files/looked-at.js'
import { cacheBase } from '../cache-base.js'
import { rootAbove } from '../ledger-root.js'
import { programState } from '../program-state.js'
import type { ExitCode } from '../runner.js'
import type { Surroundings } from '../terminal.js'
import { today } from '../today.js'
import { stateOfFiles } from './state.js'

/** What a command said, and all that it rests on beside the command line, the program and the look of the terminal. */
export interface Answer {
  /** Where the ledger was looked for, and where it was found. */
  readonly start: string
  readonly root: string
  /** The only site that was read; null for the whole ledger. */
  readonly site: string | null
  /** Today's date in the time zone of the ledger, where the answer is for today; null for a stated day. */
  readonly forToday: { readonly timeZone: string; readonly day: number } | null
  /** The state of the files it was made from. */
  readonly state: string
  readonly exitCode: ExitCode
  readonly text: string
}

/** Longer answers are quicker made than kept. */
const longest = 16 * 1024 * 1024

/** What came of looking for an answer. */
export interface Recalled {
  /** The answer, if it still holds. */
  readonly answer?: Answer
  /** The files that were looked at for that. */
  readonly looked?: NonNullable<Surroundings['looked']>
}

/** A place in which the answer to one command line is kept. */
export interface AnswerPlace {
  recall(now: number): Recalled
  keep(answer: Answer): void
}

/** Undefined where nothing is kept: `--no-cache`, no folder for it, or a command line that asks git. */
export function answerPlace(args: readonly string[], here: Surroundings): AnswerPlace | undefined {
  const { env, stdout } = here
  const base = cacheBase(env)
  if (base === undefined || args.some(isNotKept) || env.GIT_INDEX_FILE !== undefined) return undefined
  const look = [env.NO_COLOR, env.FORCE_COLOR, env.TERM, stdout.isTTY, stdout.columns, env.DOORSWEEP_TODAY]
  const key = createHash('sha1')
    .update(JSON.stringify([programState(), here.cwd(), args, look.map((each) => each ?? null)]))
    .digest('hex')
  const folder = cacheFolder(`${base}/answers`, 30)
  return {
    recall: (now) => holding(folder, key, here, now),
    keep(answer) {
      const { text, ...about } = answer
      if (text.length <= longest) folder.write(key, `${JSON.stringify(about)}\n${text}`)
    },
  }
}

/** What git holds may change without a sign in the files. */
function isNotKept(arg: string): boolean {
  return /^--(?:no-cache|rev|since|staged)(?:=|$)/.test(arg)
}

function holding(folder: CacheFolder, key: string, here: Surroundings, now: number): Recalled {
  const kept = folder.read(key)
  if (kept === undefined) return {}
  const end = kept.indexOf('\n')
  const about = JSON.parse(kept.slice(0, end)) as Omit<Answer, 'text'>
  const { start, root, site, forToday, state } = about
  if (rootAbove(resolve(here.cwd(), start)) !== root) return {}
  if (forToday && today(forToday.timeZone, here) !== forToday.day) return {}
  const source = workTreeLookedAtOnce(root)
  if (stateOfFiles(root, source, site ?? undefined, now) !== state) return { looked: { root, source } }
  return { answer: { ...about, text: kept.slice(end + 1) } }
}
