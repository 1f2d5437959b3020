/** Fields every record is built from: ids, instants, dates and short texts, with the bounds the hub accepts. */
import * as z from 'zod/mini';
import { AFTER_STAGES, CLEARANCES, STAGES, WORK_STAGES } from './stage.ts';

/** Id of a record, op or device: letters, digits and `_ -`, safe as a key, in a path and in a log. */
export const Id = z.string().check(z.regex(/^[a-zA-Z0-9][a-zA-Z0-9_-]{0,31}$/));

/** Id put together from others with `.` and `:`, as a prep's `bramble.1` or a piece of work's `bramble.1:coat`. */
export const Key = z.string().check(z.regex(/^[a-zA-Z0-9][a-zA-Z0-9_.:-]{0,79}$/));

/** Milliseconds since 1970-01-01T00:00Z, whole. 2000-01-01 … 2200-01-01 keeps absurd clocks out of the records. */
export const Instant = z.int().check(z.gte(946_684_800_000), z.lte(7_258_118_400_000));

/** A calendar date in the barn's zone, ISO 8601: `2026-03-29`. */
export const DateText = z.string().check(z.regex(/^\d{4}-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])$/));

/** A name as it is shown on a board. */
export const ShownName = z.string().check(z.trim(), z.minLength(1), z.maxLength(40));

/** Free words, at most a few sentences. */
export const Words = z.string().check(z.maxLength(400));

export const Stage = z.enum(STAGES);
export const AfterStage = z.enum(AFTER_STAGES);
export const WorkStage = z.enum(WORK_STAGES);
export const Clearance = z.enum(CLEARANCES);
