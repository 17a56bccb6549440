#!/usr/bin/env node
const args = process.argv.slice(2)

// A shell asks at every press of a key and waits, and some answers are kept from the last time: no more is loaded than they need.
const light = { complete: 'complete/main.js', check: 'answers/main.js', due: 'answers/main.js' }
const { main } = await import(
  `../dist/cli/${Object.hasOwn(light, args[0] ?? '') ? light[args[0]] : 'main.js'}`
)

process.exitCode = await main(args, process)
