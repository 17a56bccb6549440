import { dayOf } from '../../measure/calendar.js'
import { pestTable } from '../../records/tables.js'
import { lengthUnits } from '../../records/units.js'
import type { YamlMap } from '../demo/yaml.js'
import { baitTyped, quantityTyped } from './amount-words.js'
import { listed, matched } from './words.js'

/** What was typed of how a device stands, as facts of its record; or what is wrong with it. */
export type StandingTyped = { readonly facts: YamlMap } | { readonly complaint: string }

/** Facts of a place, told again whenever a device is moved. `not` before one says no. */
const yesOrNo = ['secured', 'marked', 'within-reach', 'in-doorway', 'visible-outdoors', 'above-food'] as const
const opposites: Readonly<Record<string, string>> = {
  unsecured: 'secured',
  unmarked: 'marked',
  'out-of-reach': 'within-reach',
}
/** Facts of the device itself, told when it is set. The first two are never told with a no. */
const onlyYes = ['while-pupils-away', 'electric-grid'] as const
const ofSetting = ['for', 'traps', 'marked-as', 'tamper-resistant', ...onlyYes, 'lamp', 'added'] as const

/** Every word of a place, for help and complaints. */
export const placeWords = [...yesOrNo, 'out-of-reach', 'height', 'at'] as const

interface Typing {
  readonly rest: readonly string[]
  readonly facts: YamlMap
  /** Pests are being listed. */
  readonly isListing: boolean
}

type Taken = Typing | { readonly complaint: string }

/** `for german-cockroach, house-mouse secured not above-food height 4 ft`. What is not said stays unsaid. */
export function standingTyped(text: string, products: readonly string[], isMoved: boolean): StandingTyped {
  let typing: Typing = {
    rest: text.split(/[ ,]+/).filter((word) => word !== ''),
    facts: {},
    isListing: false,
  }
  while (typing.rest.length > 0) {
    const taken = taking(typing, products, isMoved)
    if ('complaint' in taken) return taken
    typing = taken
  }
  return isEmptyList(typing.facts) ? forWhich : { facts: typing.facts }
}

const forWhich = { complaint: 'for which pests? Write them after it.' }
const isEmptyList = (facts: YamlMap) => Array.isArray(facts.for) && facts.for.length === 0

function taking(typing: Typing, products: readonly string[], isMoved: boolean): Taken {
  const { facts, rest } = typing
  const [written = '', ...after] = rest
  const isDenied = written.toLowerCase() === 'not'
  const low = (isDenied ? (after[0] ?? '') : written).toLowerCase()
  const others = isDenied ? after.slice(1) : after
  const add = (added: YamlMap, left: readonly string[] = others): Typing => ({
    rest: left,
    facts: { ...facts, ...added },
    isListing: false,
  })
  if (known(yesOrNo, low) || (!isMoved && low === 'tamper-resistant'))
    return add({ [low]: isDenied ? 'no' : 'yes' })
  const opposite = opposites[low]
  if (opposite !== undefined && !isDenied) return add({ [opposite]: 'no' })
  if (isDenied) return { complaint: `not what? ${understood(isMoved)}` }
  if (low === 'height') return heightTyped(others, add)
  if (low === 'at') return positionTyped(others, add)
  if (isMoved || !known(ofSetting, low))
    return typing.isListing
      ? pestTyped(typing)
      : { complaint: `${written} is not understood; ${understood(isMoved)}` }
  if (known(onlyYes, low)) return add({ [low]: 'yes' })
  if (low === 'for') return { rest: others, facts: { ...facts, for: [] }, isListing: true }
  return ofTheDevice(low, others, products, add)
}

const known = (words: readonly string[], word: string) => words.includes(word)

const understood = (isMoved: boolean) =>
  `write ${isMoved ? '' : 'for and the pests, or '}${listed(placeWords)}${isMoved ? '' : `; also ${listed(ofSetting.slice(1))}`}. not before one of them says no.`

type Add = (facts: YamlMap, left?: readonly string[]) => Typing

function ofTheDevice(low: string, others: readonly string[], products: readonly string[], add: Add): Taken {
  const [next = '', ...left] = others
  switch (low) {
    case 'traps':
      return /^(?:[1-9]|1[0-9]|20)$/.test(next)
        ? add({ traps: Number(next) }, left)
        : { complaint: 'How many traps stand here as one? Write traps 2; at most 20.' }
    case 'marked-as':
      return next === ''
        ? { complaint: 'marked-as what? Write what is printed on it, as marked-as #17.' }
        : add({ 'marked-as': next }, left)
    case 'lamp':
      return dayOf(next) === null
        ? { complaint: 'Write the date on the lamp, as lamp 2026-03-12.' }
        : add({ lamp: next }, left)
    default: {
      const bait = baitTyped(others, products, isStandingWord)
      return 'complaint' in bait ? bait : add(bait.facts, bait.rest)
    }
  }
}

const isStandingWord = (word: string) =>
  known([...placeWords, ...ofSetting, ...Object.keys(opposites), 'not'], word.toLowerCase())

function heightTyped(others: readonly string[], add: Add): Taken {
  const height = quantityTyped(others, lengthUnits)
  return height
    ? add({ height: height.quantity }, height.rest)
    : {
        complaint: `How high is its middle above the floor? Write height 4 ft; units are ${listed(lengthUnits)}.`,
      }
}

function positionTyped(others: readonly string[], add: Add): Taken {
  const [across = '', down = '', ...left] = others
  const isNumber = (word: string) => /^(?:0|[1-9][0-9]{0,5})(?:\.[0-9]{1,3})?$/.test(word)
  return isNumber(across) && isNumber(down)
    ? add({ at: [Number(across), Number(down)] }, left)
    : {
        complaint:
          'Where on the property diagram? Write at 12.5 40: across and down from its top left corner.',
      }
}

function pestTyped({ rest, facts }: Typing): Taken {
  const [word = '', ...others] = rest
  const pest = matched(word, [...pestTable().keys()], 'pest')
  if ('complaint' in pest) return pest
  const pests = Array.isArray(facts.for) ? facts.for : []
  return {
    rest: others,
    facts: { ...facts, for: pests.includes(pest.word) ? pests : [...pests, pest.word] },
    isListing: true,
  }
}
