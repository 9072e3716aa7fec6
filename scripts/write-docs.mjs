// Writes the generated parts of README.md and DEVELOPERS.md from the program's own tables; with --check only compares.
import { readFile, writeFile } from 'node:fs/promises'
import { build } from 'esbuild'
import { format, resolveConfig } from 'prettier'

const source = `
export { LOOKING, EVERYWHERE, ACTION_GROUPS, LOG_ACTIONS, PLAN_ACTIONS, WITHOUT_KEY } from './src/tui/keymap.ts'
export { EVENT_MAKERS, AMENDABLE } from './src/domain/events.ts'
export { CAUTIONS } from './src/domain/signs.ts'
export { policyOf, sayLimit } from './src/domain/policy/in-force.ts'
export { emptyState } from './src/domain/state.ts'
`
const bundle = await build({
  stdin: { contents: source, resolveDir: process.cwd(), loader: 'ts' },
  bundle: true,
  write: false,
  format: 'esm',
  platform: 'node',
  logLevel: 'error',
})
const code = Buffer.from(bundle.outputFiles[0].contents).toString('base64')
const tables = await import(`data:text/javascript;base64,${code}`)

const row = (...cells) => `| ${cells.join(' | ')} |`
const table = (heads, rows) => [row(...heads), row(...heads.map(() => '---')), ...rows].join('\n')

function keys() {
  const one = ({ key, keys: several, help }) => row(`\`${several ?? key}\``, help)
  const groups = [
    { title: 'Looking and moving', actions: [...tables.LOOKING, ...tables.EVERYWHERE] },
    ...tables.ACTION_GROUPS,
    { title: 'In the log', actions: tables.LOG_ACTIONS },
    { title: 'On the plan', actions: tables.PLAN_ACTIONS },
  ]
  return groups
    .map(({ title, actions }) => `**${title}**\n\n${table(['key', 'does'], actions.map(one))}`)
    .join('\n\n')
}

function events() {
  const amendable = new Set(tables.AMENDABLE)
  return table(
    ['event', 'made by', 'can be amended'],
    Object.entries(tables.EVENT_MAKERS).map(([event, command]) =>
      row(`\`${event}\``, command ? `\`${command}\`` : 'the store', amendable.has(event) ? 'yes' : ''),
    ),
  )
}

function rules() {
  return table(
    ['rule', 'limit', 'past it', 'source', 'standing'],
    tables.policyOf(tables.emptyState()).rules.map(({ rule }) => {
      const { document, edition, clause, standing } = rule.source
      const limit = rule.limit === undefined ? '' : tables.sayLimit(rule.limit)
      return row(
        `\`${rule.id}\``,
        limit,
        rule.past,
        [document, edition, clause].filter(Boolean).join(', '),
        standing,
      )
    }),
  )
}

const PARTS = { keys, events, rules, cautions: () => tables.CAUTIONS.map((each) => `- ${each}`).join('\n') }

async function written(file) {
  const text = await readFile(file, 'utf8')
  const filled = text.replaceAll(
    /(<!-- made:(\w+) -->)[\s\S]*?(<!-- \/made -->)/g,
    (_, open, name, close) => {
      if (!PARTS[name])
        throw new Error(
          `${file} asks for "${name}", which is not made. Known: ${Object.keys(PARTS).join(', ')}`,
        )
      return `${open}\n\n${PARTS[name]()}\n\n${close}`
    },
  )
  return { text, now: await format(filled, { ...(await resolveConfig(file)), filepath: file }) }
}

let isStale = false
for (const file of ['README.md', 'DEVELOPERS.md']) {
  const { text, now } = await written(file)
  if (text === now) continue
  if (process.argv.includes('--check')) {
    isStale = true
    process.stderr.write(`${file} is not what the tables say. Run: npm run docs\n`)
  } else await writeFile(file, now)
}
process.exitCode = isStale ? 1 : 0
