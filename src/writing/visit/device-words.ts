import { dayOf } from '../../measure/calendar.js'
import { lifeStages } from '../../records/fields.js'
import { deviceTable, pestTable } from '../../records/tables.js'
import type { YamlMap } from '../demo/yaml.js'
import { baitTyped } from './amount-words.js'
import type { PlannedDevice } from './plan.js'
import { readingInWords } from './reading-words.js'
import { listed, matched, wordIn } from './words.js'

/** What was typed of one device, as a reading; or what is wrong with it. */
export type ReadingTyped = { readonly reading: YamlMap } | { readonly complaint: string }

interface Typing {
  readonly device: PlannedDevice
  readonly products: readonly string[]
  /** Words not read yet. */
  readonly rest: readonly string[]
  readonly reading: YamlMap
  /** The pest that a number counts. */
  readonly pest?: string
}

type Taken = Typing | { readonly complaint: string }

/**
 * What is written of a device that was looked at with nothing new: a list entry, what was left on it, or what its kind
 * shows instead. Undefined for one that was lost or spoilt: what became of it has to be told.
 */
export function clearReading({ kind, on, lost }: PlannedDevice): 'none' | YamlMap | undefined {
  if (lost !== undefined) return undefined
  if (Object.keys(on).length > 0) return on
  const { reads } = deviceTable()[kind]
  if (reads.includes('counts')) return 'none'
  if (reads.includes('active')) return { active: 'no' }
  if (reads.includes('tracks')) return { tracks: 'none' }
  if (reads.includes('block')) return { block: 'in-place' }
  return reads.includes('bait') ? { 'bait-taken': 'none' } : 'none'
}

/** The same in words, for the question that Enter answers; the devices follow it. */
export function clearWords(device: PlannedDevice): string | undefined {
  const reading = clearReading(device)
  if (reading === undefined) return undefined
  if (reading === 'none') return 'nothing on'
  if (Object.keys(device.on).length > 0) return `still ${readingInWords(reading)} on`
  if ('active' in reading) return 'not active:'
  if ('tracks' in reading) return 'no tracks in'
  return 'block' in reading ? 'block in place at' : 'no bait gone from'
}

/** Reads the words after the name of a device: `2`, `german 4n 1a renewed`, `missing`, `some added 1 block block-x`. */
export function readingTyped(
  device: PlannedDevice,
  words: readonly string[],
  products: readonly string[],
): ReadingTyped {
  let typing: Typing = { device, products, rest: words, reading: {} }
  while (typing.rest.length > 0) {
    const taken = taking(typing)
    if ('complaint' in taken) return taken
    typing = taken
  }
  if (typing.pest !== undefined && typing.reading[typing.pest] === undefined)
    return { complaint: `${device.id}: how many ${typing.pest}? Write the number after it.` }
  return { reading: typing.reading }
}

const unusable = ['missing', 'damaged', 'wet', 'full'] as const

function taking(typing: Typing): Taken {
  const { device, rest, reading } = typing
  const [written = '', ...others] = rest
  const word = written.replace(/,$/, '')
  const low = word.toLowerCase()
  const reads = deviceTable()[device.kind].reads
  const add = (facts: YamlMap): Typing => ({ ...typing, rest: others, reading: { ...reading, ...facts } })
  if (/^[0-9]/.test(word)) return counted(typing)
  if (low === 'r' || low === 'renewed')
    return add(low === 'r' && device.kind === 'snap-trap' ? { reset: 'yes' } : { renewed: 'yes' })
  if (low === 'reset') return add({ reset: 'yes' })
  if ((unusable as readonly string[]).includes(low)) return add({ unusable: low })
  if (low === 'no-access') return restOfLine(typing, 'no-access', 'no-access cabinet in front')
  if (low === 'note') return restOfLine(typing, 'note', 'note greasy behind the fryer')
  if (low === 'other') return otherAnimal(typing)
  if (low === 'sprung') return add({ sprung: 'empty' })
  if (low === 'other-animal') return add({ sprung: 'other-animal' })
  if (low === 'flushed') return add({ 'after-flush': 'yes' })
  if (low === 'added') return baitAdded(typing)
  if (low === 'lot') return labelledWord(typing, 'lot')
  if (low === 'lamp') return lampDated(typing)
  if (reads.includes('bait') && ['none', 'some', 'all', 'mouldy'].includes(low))
    return add({ 'bait-taken': low })
  if (reads.includes('tracks') && ['none', 'some', 'many'].includes(low)) return add({ tracks: low })
  if (reads.includes('active') && (low === 'active' || low === 'inactive'))
    return add({ active: low === 'active' ? 'yes' : 'no' })
  if (reads.includes('block') && (low === 'moved' || low === 'in-place')) return add({ block: low })
  return pestNamed(typing)
}

/** `2`, or by stage: `4n`, `4nymphs`, `4 nymphs`. */
function counted(typing: Typing): Taken {
  const { device, rest, reading } = typing
  const [word = '', after = '', ...later] = rest
  const next = after.replace(/,$/, '')
  const match = /^([0-9]{1,7})([A-Za-z-]*),?$/.exec(word)
  if (!match) return { complaint: `${device.id}: ${word} is not a number of animals.` }
  const number = Number(match[1])
  const pest = typing.pest ?? (device.for.length === 1 ? device.for[0] : undefined)
  if (pest === undefined)
    return {
      complaint: `${device.id} is for several; name the pest first, as ${device.id} ${device.for[0] ?? 'house-mouse'} ${word}. It is for ${listed(device.for)}.`,
    }
  const isOneWord = match[2] !== ''
  const written = isOneWord ? (match[2] ?? '') : lifeStages.includes(next as never) ? next : ''
  if (written === '') return { ...typing, rest: rest.slice(1), reading: { ...reading, [pest]: number }, pest }
  const stage = stageNamed(written)
  if (stage === undefined)
    return { complaint: `${device.id}: ${written} is no life stage; there is ${listed(lifeStages)}.` }
  const before = reading[pest]
  const stages = typeof before === 'object' ? (before as YamlMap) : {}
  return {
    ...typing,
    rest: isOneWord ? rest.slice(1) : later,
    reading: { ...reading, [pest]: { ...stages, [stage]: number } },
    pest,
  }
}

/** `e` is eggs and not egg cases; every other beginning is of one stage. */
function stageNamed(written: string): string | undefined {
  return written.toLowerCase() === 'e' || written.toLowerCase() === 'egg'
    ? 'eggs'
    : wordIn(written, lifeStages)
}

function pestNamed(typing: Typing): Taken {
  const { device, rest } = typing
  const [written = '', ...others] = rest
  const word = written.replace(/,$/, '')
  const isWhole = pestTable().has(word.toLowerCase())
  const pest = isWhole ? word.toLowerCase() : wordIn(word, device.for)
  if (pest !== undefined) return { ...typing, rest: others, pest }
  const found = matched(word, [...pestTable().keys()], 'pest')
  return 'complaint' in found
    ? { complaint: `${device.id}: ${found.complaint}` }
    : { ...typing, rest: others, pest: found.word }
}

function restOfLine(typing: Typing, key: string, example: string): Taken {
  const text = typing.rest.slice(1).join(' ')
  if (text === '')
    return { complaint: `${typing.device.id}: write what after it, as ${typing.device.id} ${example}.` }
  return { ...typing, rest: [], reading: { ...typing.reading, [key]: text } }
}

function otherAnimal(typing: Typing): Taken {
  const words = typing.rest.slice(1)
  const at = words.findIndex((word) => /^[0-9]+$/.test(word))
  const name = (at === -1 ? words : words.slice(0, at)).join(' ')
  if (name === '') return { complaint: `${typing.device.id}: which animal? Write other earwig 2.` }
  const many = at === -1 ? {} : { 'other-count': Number(words[at]) }
  return {
    ...typing,
    rest: at === -1 ? [] : words.slice(at + 1),
    reading: { ...typing.reading, other: name, ...many },
  }
}

/** `added 1 block block-x`: an amount with its unit, and the product that it is of. */
function baitAdded(typing: Typing): Taken {
  const bait = baitTyped(typing.rest.slice(1), typing.products, (word) => word === 'lot')
  if ('complaint' in bait) return { complaint: `${typing.device.id}: ${bait.complaint}` }
  return { ...typing, rest: bait.rest, reading: { ...typing.reading, ...bait.facts } }
}

function labelledWord(typing: Typing, key: string): Taken {
  const [, word, ...rest] = typing.rest
  if (word === undefined) return { complaint: `${typing.device.id}: ${key} what?` }
  return { ...typing, rest, reading: { ...typing.reading, [key]: word } }
}

function lampDated(typing: Typing): Taken {
  const [, word = '', ...rest] = typing.rest
  if (dayOf(word) === null)
    return { complaint: `${typing.device.id}: write the date on the lamp, as lamp 2026-03-12.` }
  return { ...typing, rest, reading: { ...typing.reading, lamp: word } }
}
