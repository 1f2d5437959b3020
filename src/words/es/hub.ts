/** What the hub says of itself, and why it does not take what a tablet sent. */
import type { REFUSALS, Status } from '../../wire/messages.ts';
import { span } from './common.ts';

export const HUB_SAYS: Record<(typeof REFUSALS)[number], string> = {
  malformed: 'La central no pudo leer lo que envió esta tableta. Recargue esta página.',
  helloFirst: 'La central no conocía esta tableta. Se está presentando otra vez.',
  otherVersion: 'La central tiene un tablero más nuevo. Esta página se recarga cuando nadie la use.',
  notAllowedHere: 'Esta tableta no puede hacer eso. Pregunte en coordinación.',
  notADemo: 'Este establo ya es el suyo.',
  tooMuch: 'Esta tableta envió más de lo que la central recibe de una vez. Enviará el resto después.',
  readOnly: 'La central no puede anotar nada por ahora. Los toques se guardan aquí y se envían cuando pueda.',
  notPaired: 'La central no conoce esta tableta. Pida un código de vinculación a quien coordina.',
};

/** What the hub says of itself on every board: what is so, and what to do. */
export const HUB_STATUS = {
  readOnly: {
    full: 'El disco de la central está lleno y no puede anotar nada. Los toques se guardan en cada tableta. Pida a quien cuida la central que haga lugar.',
    writeProtected:
      'El disco de la central solo se puede leer y no se puede anotar nada. Los toques se guardan en cada tableta. Avise a quien cuida la central.',
    failing:
      'El disco de la central falla y no se puede anotar nada. Los toques se guardan en cada tableta. Avise pronto a quien cuida la central.',
  },
  tornTail:
    'La central se apagó mientras anotaba. Pueden faltar los últimos toques: mire las fichas de los caballos.',
  clockAhead: (by: string) =>
    `El reloj de la central se adelantó ${by}, y con él todas las cuentas de tiempo.`,
  clockBack: (by: string) => `El reloj de la central se atrasó ${by}, y con él todas las cuentas de tiempo.`,
} as const;

/** Shortest span said, in minutes: a clock that was set by seconds is not worth a zero. */
const LEAST_MINUTES = 1;

/** The hub’s clock was set by `byMs`. */
export function clockJumped({ byMs }: NonNullable<Status['clockJump']>): string {
  const by = span(Math.max(LEAST_MINUTES, Math.round(Math.abs(byMs) / 60_000)));
  return byMs > 0 ? HUB_STATUS.clockAhead(by) : HUB_STATUS.clockBack(by);
}
