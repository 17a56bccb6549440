// Prints `N passed, N failed` from a JSON test report; fails when a test failed or none ran.
import { readFileSync } from 'node:fs'

let passed = 0
let failed = 0
try {
  const report = JSON.parse(readFileSync(process.argv[2], 'utf8'))
  passed = report.numPassedTests
  // A test file that could not even be loaded has no test to fail.
  failed =
    report.numFailedTests +
    report.testResults.filter((file) => file.status === 'failed' && file.assertionResults.length === 0).length
} catch {
  failed = 1
}
process.stdout.write(`${passed} passed, ${failed} failed\n`)
process.exitCode = failed > 0 || passed === 0 ? 1 : 0
