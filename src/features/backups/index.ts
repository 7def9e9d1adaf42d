export { backupKey, readIdentity } from './backup-key.ts';
export { bookFileOf } from './book-file.ts';
