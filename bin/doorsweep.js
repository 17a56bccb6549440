#!/usr/bin/env node
const args = process.argv.slice(2)

// A shell asks at every press of a key and waits; no more is loaded than the answer needs.
const { main } = await import(args[0] === 'complete' ? '../dist/cli/complete/main.js' : '../dist/cli/main.js')

process.exitCode = await main(args, process)
