// Puts what the operating system said into words; it must never guess at a cause the system did not name.

const WORDS: Record<string, string> = {
  EACCES: 'this account has no permission',
  EPERM: 'this account has no permission',
  EROFS: 'the disk is read-only',
  ENOSPC: 'the disk is full',
  EDQUOT: 'the disk quota is used up',
  EFBIG: 'the file has reached the largest size allowed',
  EIO: 'the disk reported an error',
  EISDIR: 'there is a folder in its place',
  ENOTDIR: 'part of the path is not a folder',
  ENOENT: 'it is not there',
  EMFILE: 'too many files are open',
  ENFILE: 'too many files are open',
}

export const codeOf = (error: unknown): string | undefined =>
  error instanceof Error && 'code' in error && typeof error.code === 'string' ? error.code : undefined

/** A clause such as "the disk is full (ENOSPC)". */
export const whyOf = (error: unknown): string => {
  const code = codeOf(error)
  const words = code === undefined ? undefined : WORDS[code]
  if (words !== undefined) return `${words} (${code})`
  return error instanceof Error ? error.message : String(error)
}
