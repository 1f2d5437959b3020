/** What a failed write says about the disk. */
import type { WriteTrouble } from '#core/wire/messages.ts';
import { codeOf } from '../startError.ts';

/** By the system's code (errno of POSIX.1-2017). `EFBIG` and `EDQUOT`: a limit on files or on this user. */
export function troubleOf(error: unknown): WriteTrouble {
  switch (codeOf(error)) {
    case 'ENOSPC':
    case 'EDQUOT':
    case 'EFBIG':
      return 'full';
    case 'EROFS':
    case 'EACCES':
    case 'EPERM':
      return 'writeProtected';
    default:
      return 'failing';
  }
}
