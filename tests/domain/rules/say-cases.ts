// A program for the tests that prints what every case says under the machine's time zone it was started in.
import { sayCases } from './cases.ts'

process.stdout.write(`${new Date(2026, 6, 1).getTimezoneOffset()}\n${sayCases()}`)
