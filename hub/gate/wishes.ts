/** What somebody at a tablet asks of the gate, and what comes of it. */
import type { GateOutcome, Wish } from '#core/wire/gate.ts';
import type { Coordinator } from '../gate.ts';
import type { Keeper } from './keeper.ts';
import { isWeak, keyOf } from './pin.ts';
import { DONE, refused } from './pins.ts';

export type WishesParts = {
  readonly keeper: Keeper;
  /** Puts a coordinator among the barn's staff, or finds the one of this name; null: it could not be written. */
  readonly newCoordinator: (name: string) => Promise<Coordinator | null>;
  readonly staff: () => readonly Coordinator[];
};

export class Wishes {
  readonly #parts: WishesParts;

  constructor(parts: WishesParts) {
    this.#parts = parts;
  }

  /** Of the tablet `device`. Never rejects. */
  async grant(device: string, wish: Wish): Promise<GateOutcome> {
    const { keeper } = this.#parts;
    const tablet = keeper.tablet(device);
    const now = keeper.now(device);
    if (!tablet || !now) return refused('notAllowedHere');
    const { by } = now;
    switch (wish.to) {
      case 'unlock':
        return this.#unlock(device, wish.by, wish.pin);
      case 'lock':
        keeper.lock(device);
        return DONE;
      case 'begin':
        return this.#begin(device, wish.name, wish.pin);
      case 'hang':
        // A tablet that hangs nowhere yet says itself where it does: that is the end of pairing it.
        if (by === null && (tablet.place !== null || wish.tablet !== device))
          return refused('notAllowedHere');
        if (!keeper.tablet(wish.tablet)) return refused('unknown');
        keeper.audit.add({ what: 'placed', tablet: device, whom: wish.tablet, ...(by !== null && { by }) });
        return written(keeper.hang(wish.tablet, wish.name, wish.place));
      case 'makeCode':
      case 'strikeOff':
      case 'setPin':
      case 'takePin':
        return by === null ? refused('notAllowedHere') : this.#asCoordinator(device, by, wish);
    }
  }

  async #unlock(device: string, who: string, pin: string): Promise<GateOutcome> {
    const { keeper } = this.#parts;
    const tablet = keeper.tablet(device);
    if (!tablet?.place) return refused('notAllowedHere');
    const isKnown = keeper.coordinators.some(({ id }) => id === who);
    const outcome = await keeper.tryPin({
      tablet: device,
      isOwn: tablet.place.role === 'coordinator',
      pin,
      key: isKnown ? (keeper.record.pins[who] ?? null) : null,
    });
    // It may have been struck off, or its PIN taken, while the key was worked out.
    const stillIs = keeper.tablet(device) !== null && keeper.coordinators.some(({ id }) => id === who);
    if (outcome.is === 'done' && !stillIs) return refused('notAllowedHere');
    if (outcome.is === 'done') keeper.unlock(device, who);
    const wrong = outcome.is === 'refused' && outcome.why === 'wrongPin';
    if (outcome.is === 'done') keeper.audit.add({ what: 'unlocked', tablet: device, by: who });
    else if (wrong) keeper.audit.add({ what: 'pinWrong', tablet: device, whom: who });
    return outcome;
  }

  async #begin(device: string, name: string, pin: string): Promise<GateOutcome> {
    const { keeper, newCoordinator } = this.#parts;
    if (keeper.coordinators.length > 0) return refused('notAllowedHere');
    if (!keeper.tablet(device)?.atHub) return refused('needsConsole');
    if (isWeak(pin)) return refused('weakPin');
    const [key, coordinator] = await Promise.all([keyOf(pin), newCoordinator(name)]);
    if (!coordinator) return refused('notWritten');
    // Two tablets may have begun at once; the first counts.
    if (keeper.coordinators.length > 0 || !keeper.tablet(device)) return refused('notAllowedHere');
    const outcome = await this.#keep(device, coordinator.id, coordinator.id, key);
    if (outcome.is === 'done') keeper.unlock(device, coordinator.id);
    // Nobody need stand at the hub any more: from now on codes are the coordinator's to give.
    keeper.codes.dropAtHub();
    return outcome;
  }

  async #asCoordinator(
    device: string,
    by: string,
    wish: Extract<Wish, { to: 'makeCode' | 'strikeOff' | 'setPin' | 'takePin' }>,
  ): Promise<GateOutcome> {
    const { keeper, staff } = this.#parts;
    keeper.touched(device);
    switch (wish.to) {
      case 'makeCode': {
        const { digits, whole, until } = keeper.codes.make(false);
        return { is: 'code', code: digits, whole, until };
      }
      case 'strikeOff':
        if (!keeper.tablet(wish.tablet)) return refused('unknown');
        keeper.audit.add({ what: 'struckOff', tablet: device, whom: wish.tablet, by });
        return written(keeper.strikeOff(wish.tablet));
      case 'setPin':
        if (!staff().some(({ id }) => id === wish.staff)) return refused('unknown');
        if (isWeak(wish.pin)) return refused('weakPin');
        return this.#setPin(device, by, wish.staff, wish.pin);
      case 'takePin': {
        const { pins } = keeper.record;
        if (!Object.hasOwn(pins, wish.staff)) return refused('unknown');
        if (keeper.coordinators.every(({ id }) => id === wish.staff)) return refused('lastPin');
        const { [wish.staff]: _gone, ...others } = pins;
        keeper.audit.add({ what: 'pinTaken', tablet: device, by, whom: wish.staff });
        const outcome = written(keeper.save({ ...keeper.record, pins: others }));
        keeper.coordinatorsChanged();
        return outcome;
      }
    }
  }

  async #setPin(device: string, by: string, whom: string, pin: string): Promise<GateOutcome> {
    const { keeper, staff } = this.#parts;
    const key = await keyOf(pin);
    // It may have been locked or struck off while the key was worked out, or this person taken out of the records.
    const isStill = keeper.now(device)?.by === by && staff().some(({ id }) => id === whom);
    return isStill ? this.#keep(device, by, whom, key) : refused('notAllowedHere');
  }

  async #keep(
    device: string,
    by: string,
    whom: string,
    key: Awaited<ReturnType<typeof keyOf>>,
  ): Promise<GateOutcome> {
    const { keeper } = this.#parts;
    keeper.audit.add({ what: 'pinSet', tablet: device, by, whom });
    const { record } = keeper;
    const outcome = await written(keeper.save({ ...record, pins: { ...record.pins, [whom]: key } }));
    keeper.coordinatorsChanged();
    return outcome;
  }
}

function written(on: Promise<void>): Promise<GateOutcome> {
  return on.then(
    () => DONE,
    () => refused('notWritten'),
  );
}
