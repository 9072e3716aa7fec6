// Names the tests that answer for the rules, the dates and the sizes, leaving out the slowest and those whose processes no mutant can reach.
import { defineConfig } from 'vitest/config'

export default defineConfig({
  test: {
    include: [
      'tests/domain/rules/*.test.ts',
      'tests/domain/{time,clock,size,board,assess-setting,explain,explain-unworn}.test.ts',
      'tests/published/{garments,breathing-apparatus}.test.ts',
    ],
    exclude: ['tests/domain/rules/time-zones.test.ts'],
  },
})
