const WORDS: Readonly<Record<string, string>> = {
  ENOENT: 'it is not there: is the disk plugged in, the folder of the network mounted?',
  ENOTDIR: 'it is a file, no folder',
  EACCES: 'the server may not write there',
  EPERM: 'the server may not write there',
  EROFS: 'the disk takes no writing',
  ENOSPC: 'no room is left on the disk',
  EDQUOT: 'no room is left for this user on the disk',
  EIO: 'the disk does not answer as it should',
  ENODEV: 'the disk is gone',
};

/** What the system says of a folder or file, for a person who can put it right. */
export function inWords(error: unknown): string {
  const { code, message } = error as NodeJS.ErrnoException;
  return (code !== undefined && WORDS[code]) || message;
}
