import { createInterface } from 'node:readline'
import { clean } from '../output/clean.js'
import type { Here } from './runner.js'

export type Heard =
  | { readonly is: 'line'; readonly text: string }
  /** Standard input is at its end, as when the terminal was closed. */
  | { readonly is: 'ended' }
  | { readonly is: 'interrupted' }

/** A conversation by lines. What is said goes to standard error: the result alone is on standard output. */
export interface Lines {
  ask(prompt: string): Promise<Heard>
  say(line: string): void
  close(): void
}

const signals = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const

/** Lines from standard input. What was typed ahead waits its turn, so that nothing typed is lost. */
export function linesFrom(stdin: NodeJS.ReadStream, here: Here): Lines {
  // A terminal that was closed takes no more words; that is no reason to fall over what is safe on the disk.
  here.stderr.on?.('error', () => {})
  const say = (line: string) => {
    here.stderr.write(`${line.split('\n').map(clean).join('\n')}\n`)
  }
  const isTerminal = stdin.isTTY === true
  let isAtEnd = false
  // Before the reader, which hands on what was typed last as a line of its own: without its Enter it is no answer.
  stdin.on('end', () => {
    isAtEnd = true
  })
  const reader = createInterface({
    input: stdin,
    terminal: isTerminal,
    ...(isTerminal ? { output: process.stderr } : {}),
  })
  const heard: Heard[] = []
  let waiting: ((heard: Heard) => void) | undefined
  let last: Heard | undefined
  const hear = (one: Heard) => {
    if (one.is !== 'line') last = one
    const waits = waiting
    waiting = undefined
    if (waits) waits(one)
    else if (one.is === 'line') heard.push(one)
  }
  const interrupt = () => hear({ is: 'interrupted' })
  reader.on('line', (text) => {
    if (!isAtEnd) hear({ is: 'line', text })
  })
  reader.on('close', () => hear(last ?? { is: 'ended' }))
  reader.on('SIGINT', interrupt)
  // A terminal that is gone cannot be given back its mode either; the reader hands that on as an error of its own.
  let isGone = false
  for (const one of [stdin, reader] as const)
    one.on('error', () => {
      isGone = true
      hear({ is: 'ended' })
    })
  for (const signal of signals) process.on(signal, interrupt)
  return {
    say,
    ask(prompt) {
      const shown = `${clean(prompt)} > `
      if (!isTerminal) here.stderr.write(`${shown}\n`)
      else if (last === undefined) {
        reader.setPrompt(shown)
        reader.prompt()
      }
      const next = last?.is === 'interrupted' ? last : (heard.shift() ?? last)
      return next === undefined
        ? new Promise((resolve) => {
            waiting = resolve
          })
        : Promise.resolve(next)
    },
    close() {
      for (const signal of signals) process.off(signal, interrupt)
      reader.close()
      stdin.unref?.()
      // Ended as by the hang-up itself, once all is put away: at an ordinary end Node gives the terminal its mode back,
      // and aborts where there is none any more.
      if (isGone && isTerminal) setImmediate(() => process.kill(process.pid, 'SIGHUP'))
    },
  }
}
