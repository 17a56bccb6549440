import type { ConditionHistory } from '../ledger/condition-history.js'

/** What people call the things a condition may feed a pest with, in the order they are told. */
export const needWords: Readonly<Record<NonNullable<ConditionHistory['gives']>, string>> = {
  food: 'food',
  water: 'water',
  harborage: 'harborage',
  entry: 'a way in',
}

export const needWordsOf = (gives: ConditionHistory['gives']) =>
  gives === undefined ? 'not stated' : needWords[gives]

export const ownerWordsOf = (owner: ConditionHistory['owner']) => owner ?? 'nobody named'
