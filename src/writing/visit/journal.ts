import {
  closeSync,
  constants,
  existsSync,
  fstatSync,
  fsyncSync,
  ftruncateSync,
  lstatSync,
  mkdirSync,
  openSync,
  readFileSync,
  rmSync,
  writeFileSync,
  writeSync,
} from 'node:fs'
import { join } from 'node:path'
import { z } from 'zod'
import { deviceKinds } from '../../records/device-kinds.js'
import type { VisitPlan } from './plan.js'
import type { Answer } from './session.js'

/** Folder beside the records for what is no record yet. Its name begins with a dot, so no reader of records sees it. */
export const keptFolder = '.doorsweep'

/** An unfinished visit as it was kept. */
export interface Kept {
  readonly plan: VisitPlan
  /** Day and time at which it was begun, as text. */
  readonly begun: string
  readonly answers: readonly Answer[]
}

export type ReadKept =
  | { readonly is: 'none' }
  | ({ readonly is: 'kept' } & Kept)
  | { readonly is: 'unreadable'; readonly why: string }

export function keptFile(root: string, site: string): string {
  return join(root, keptFolder, `visit-${site}.jsonl`)
}

/**
 * Reads what was kept of a visit. A last line without its end was cut off while it was written, so its answer was never
 * confirmed, and is left out. Any other line that cannot be read makes the whole unreadable: nothing is guessed.
 */
export function readKept(root: string, site: string): ReadKept {
  const path = keptFile(root, site)
  let text: string
  try {
    if (!existsSync(path)) return { is: 'none' }
    refuseLinks(root, path)
    text = readFileSync(path, 'utf8')
  } catch (error) {
    return { is: 'unreadable', why: error instanceof Error ? error.message : String(error) }
  }
  return keptIn(text)
}

export function keptIn(text: string): ReadKept {
  const [first, ...rest] = text.split('\n').slice(0, -1)
  if (first === undefined) return { is: 'none' }
  const head = parsed(headLine, first)
  if (!head) return { is: 'unreadable', why: 'its first line is not that of a visit' }
  const answers: Answer[] = []
  for (const [at, line] of rest.entries()) {
    const one = parsed(entryLine, line)
    if (!one) return { is: 'unreadable', why: `line ${at + 2} is no answer` }
    if ('undone' in one) answers.pop()
    else answers.push(one)
  }
  return { is: 'kept', plan: head.plan as unknown as VisitPlan, begun: head.begun, answers }
}

const condition = z.strictObject({
  name: z.string(),
  says: z.string(),
  since: z.string(),
  owner: z.string().optional(),
  due: z.string().optional(),
  repairedOn: z.string().optional(),
})
const device = z.strictObject({
  id: z.string(),
  kind: z.enum(deviceKinds),
  markedAs: z.string().optional(),
  for: z.array(z.string()),
  last: z.string(),
  on: z.record(z.string(), z.union([z.int(), z.record(z.string(), z.int())])),
  lost: z.string().optional(),
  isDue: z.boolean(),
})
const planShape = z.strictObject({
  site: z.string(),
  siteName: z.string(),
  day: z.string(),
  isToday: z.boolean(),
  by: z.string().optional(),
  enteredBy: z.string().optional(),
  onPaper: z.string().optional(),
  word: z.string().optional(),
  people: z.array(z.string()),
  lastVisitor: z.string().optional(),
  siteManager: z.string().optional(),
  complaintLog: z.string(),
  isRoutineDue: z.boolean(),
  complaints: z.array(z.strictObject({ id: z.string(), area: z.string().optional(), says: z.string() })),
  areas: z.array(
    z.strictObject({
      id: z.string(),
      name: z.string(),
      isArea: z.boolean(),
      keys: z.string().optional(),
      letInBy: z.string().optional(),
      lookAt: z.array(z.string()),
      devices: z.array(device),
      conditions: z.array(condition),
    }),
  ),
  cautions: z.array(z.string()),
  products: z.array(z.string()),
  namesInUse: z.array(z.string()),
  recordedOnDay: z.array(z.string()),
  // Not in a visit that an earlier program kept.
  deviceNames: z.array(z.string()).optional(),
  away: z
    .array(
      z.strictObject({
        id: z.string(),
        markedAs: z.string().optional(),
        area: z.string(),
        since: z.string(),
      }),
    )
    .optional(),
  plantsAway: z
    .array(
      z.strictObject({
        name: z.string(),
        area: z.string().optional(),
        since: z.string(),
        why: z.string().optional(),
        isWet: z.boolean(),
      }),
    )
    .optional(),
  asksWhoTypes: z.boolean().optional(),
})
const headLine = z.strictObject({ begun: z.string(), plan: planShape })
const entryLine = z.union([
  z.strictObject({ to: z.string(), text: z.string() }),
  z.strictObject({ undone: z.literal('last') }),
])

function parsed<T>(schema: z.ZodType<T>, line: string): T | undefined {
  try {
    return schema.safeParse(JSON.parse(line)).data
  } catch {
    return undefined
  }
}

/** A journal that is open for writing: each answer is on the disk before the next question is asked. */
export interface Journal {
  add(answer: Answer): void
  undo(): void
  close(): void
  /** Takes the file away: the visit is written, or was discarded. */
  remove(): void
}

/** Begins a journal, or opens the one that is there to go on with it. */
export function openJournal(root: string, plan: VisitPlan, begun: string): Journal {
  const path = keptFile(root, plan.site)
  makeFolder(root)
  refuseLinks(root, path)
  const { O_RDWR, O_CREAT, O_APPEND, O_NOFOLLOW } = constants
  const handle = openSync(path, O_RDWR | O_CREAT | O_APPEND | O_NOFOLLOW, 0o600)
  const add = (line: unknown) => writeLine(handle, line)
  const text = readFileSync(handle, 'utf8')
  if (text.lastIndexOf('\n') === -1) {
    ftruncateSync(handle, 0)
    add({ begun, plan })
  } else ftruncateSync(handle, Buffer.byteLength(text.slice(0, text.lastIndexOf('\n') + 1)))
  let isOpen = true
  const close = () => {
    if (isOpen) closeSync(handle)
    isOpen = false
  }
  return {
    add,
    undo: () => add({ undone: 'last' }),
    close,
    remove() {
      close()
      rmSync(path, { force: true })
    },
  }
}

function writeLine(handle: number, line: unknown): void {
  const bytes = Buffer.from(`${JSON.stringify(line)}\n`, 'utf8')
  const before = fstatSync(handle).size
  try {
    for (let at = 0; at < bytes.length; ) at += writeSync(handle, bytes, at)
    fsyncSync(handle)
  } catch (error) {
    // A line in part, as on a full disk, would spoil the next one.
    ftruncateSync(handle, before)
    throw error
  }
}

/** The folder, which git is told to leave alone from inside it. */
export function makeFolder(root: string): void {
  const folder = join(root, keptFolder)
  mkdirSync(folder, { recursive: true })
  refuseLinks(root, folder)
  const ignore = join(folder, '.gitignore')
  if (!existsSync(ignore)) writeFileSync(ignore, '# Unfinished visits, no records.\n*\n')
}

/** A link could lead out of the ledger. */
export function refuseLinks(root: string, path: string): void {
  for (const one of [join(root, keptFolder), path])
    if (lstatSync(one, { throwIfNoEntry: false })?.isSymbolicLink() === true)
      throw new Error(`${one} is a link; links are not followed`)
}
