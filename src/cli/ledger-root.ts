import { existsSync, statSync } from 'node:fs'
import { dirname, join } from 'node:path'

/** The folder of the ledger that holds a path: the nearest one with a district.yaml, looking upwards. */
export function rootAbove(start: string): string | undefined {
  let folder = existsSync(start) && statSync(start).isDirectory() ? start : dirname(start)
  for (;;) {
    if (existsSync(join(folder, 'district.yaml'))) return folder
    const parent = dirname(folder)
    // The top of a checkout is as far as a ledger can reach.
    if (parent === folder || existsSync(join(folder, '.git'))) return undefined
    folder = parent
  }
}
