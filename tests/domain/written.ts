// All that a value says, in its order, as text: two that say the same are written the same, whatever holds it.
export const written = (value: unknown): string =>
  JSON.stringify(value, (_key, part: unknown) =>
    part instanceof Map ? [...(part as Map<string, unknown>)] : part,
  )
