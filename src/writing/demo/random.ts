/** The seeded chance of invented ledgers is that of the simulations. */
export * from '../../measure/seeded-random.js'
