import { compareQuantities, type Quantity } from '../../measure/quantities.js'
import { asGiven } from '../../reports/mix-amounts.js'
import type { RegisterProduct } from '../../reports/mix-register.js'
import { UsageError } from '../usage-error.js'
import type { Given, MixFlags } from './mix-request.js'

/** The active ingredients to be told: the one given or chosen, else all of the product. */
export function activesOf(
  { active }: MixFlags,
  { strength }: Given,
  register: RegisterProduct | undefined,
  remarks: string[],
): ReadonlyMap<string, Quantity> {
  const known = register?.strengths ?? new Map<string, Quantity>()
  const chosen = active === undefined ? undefined : known.get(active)
  if (active !== undefined && chosen === undefined)
    throw new UsageError(
      `The register tells no active ingredient ${active} of ${register?.name}; it tells ${[...known.keys()].join(', ') || 'none'}.`,
    )
  if (strength) {
    const [only] = known.size === 1 ? known : []
    const [name, told] = active !== undefined ? [active, chosen] : (only ?? ['', undefined])
    if (told && compareQuantities(told, strength) !== 0)
      remarks.push(
        `The register has ${asGiven(told)} as the strength of ${register?.name}; ${asGiven(strength)} was given and used.`,
      )
    return new Map([[name, strength]])
  }
  return active !== undefined && chosen ? new Map([[active, chosen]]) : known
}

/** No volume holds more active ingredient than it weighs. */
export function refuseTooHeavy(actives: ReadonlyMap<string, Quantity>, density: Quantity | undefined): void {
  for (const strength of actives.values())
    if (density && strength.dimension === 'strength' && compareQuantities(strength, density) === 1)
      throw new UsageError(
        `A strength of ${asGiven(strength)} is more than the product weighs (${asGiven(density)}); look at --strength and --density again.`,
      )
}

/** A rate is never taken from the register: what to use is for whoever reads the label to say. */
export function ratesTold(register: RegisterProduct | undefined): string {
  if (!register) return ''
  if (register.rates.length === 0)
    return ` The register tells no rate of ${register.name}; read its printed label.`
  const rates = register.rates.map(({ name, most, per }) => `${name} at most ${asGiven(most)} per ${per}`)
  return ` The register tells limits of ${register.name} (${rates.join('; ')}), not which rate to use.`
}

export function oneStrength(
  what: string,
  actives: ReadonlyMap<string, Quantity>,
  register: RegisterProduct | undefined,
): Quantity {
  const [first, ...others] = actives.values()
  if (!first)
    throw new UsageError(
      `${register ? `The register tells no strength of ${register.name}, and ${what}` : what} takes the strength of the product: give --strength as the label states it, such as "48 %" or "4 lb/gal".`,
    )
  if (others.length > 0)
    throw new UsageError(
      `${register?.name} has several active ingredients; say which one is meant: --active ${[...actives.keys()].join(' or --active ')}.`,
    )
  return first
}
