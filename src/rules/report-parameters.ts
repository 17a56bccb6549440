/** The days within which any event is to be in the ledger. */
export const enteredWithin = 'record.entered'

/** Values of rulebooks that no rule reads but a report does: what git shows of a record is no matter of one state of the ledger. */
export const parametersOfReports: readonly string[] = [enteredWithin]
