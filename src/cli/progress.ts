import type { Surroundings } from './terminal.js'

/** How long someone waits before it is said how far the work has come, and how often after that; in milliseconds. */
const patience = 500
const pace = 100

export interface Progress {
  /** Undefined where no one looks on. */
  readonly tell: ((done: number, all: number) => void) | undefined
  /** Takes the line away. */
  end(): void
}

/** One line on the standard error of a terminal, written over itself, for work of more than half a second. */
export function progressOn({ stderr }: Surroundings, what: string): Progress {
  if (stderr.isTTY !== true) return { tell: undefined, end: () => {} }
  let next = Date.now() + patience
  let isShown = false
  return {
    tell(done, all) {
      const now = Date.now()
      if (now < next) return
      next = now + pace
      isShown = true
      stderr.write(`\r${what}: ${done} of ${all}`)
    },
    end() {
      if (isShown) stderr.write('\r\u001b[K')
    },
  }
}
