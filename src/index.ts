// The public API: a table of contents.

// Quantities: text with a unit, and back.
export { formatQuantity, fromDisplay, readQuantity, toDisplay, UnitError } from './units.ts';
export type { Quantity, System } from './units.ts';
export type { Input, Origin, Spread } from './model/fields/input.ts';

// The car: what is said about it, what is assumed, what the physics sees.
export type {
  Auxiliaries,
  AxleName,
  Body,
  Car,
  Cell,
  Drive,
  DriveUnit,
  Friction,
  Pack,
  Surroundings,
  Traction,
  Tyre,
} from './model/car.ts';
export { completeCar, completeLedger, completeSurroundings } from './model/described.ts';
export type { CompletedCar, CompletedSurroundings } from './model/complete.ts';
export type { MeasuredUnit } from './model/drive/complete.ts';
export { auxiliariesFields } from './model/cabin/fields.ts';
export { carFields } from './model/spec.ts';
export { cellFields, packFields } from './model/pack/fields.ts';
export { driveFields } from './model/drive/fields.ts';
export { surroundingsFields } from './model/surroundings-fields.ts';
export { tyreFields } from './model/tyre/fields.ts';
export { unitFields } from './model/drive/fields.ts';
export type { AuxiliariesSpec } from './model/specs/auxiliaries.ts';
export type { CabinSpec } from './model/specs/cabin.ts';
export type { CarSpec } from './model/specs/car.ts';
export type { CellSpec } from './model/specs/cell.ts';
export type { ChargerSpec } from './model/specs/charger.ts';
export type { DriveSpec } from './model/specs/drive.ts';
export type { GearboxSpec } from './model/specs/gearbox.ts';
export type { PackSpec } from './model/specs/pack.ts';
export type { RegenerationSpec } from './model/specs/regeneration.ts';
export type { RoadLoadSpec } from './model/specs/road-load.ts';
export type { SurroundingsSpec } from './model/specs/surroundings.ts';
export type { TrailerSpec } from './model/specs/trailer.ts';
export type { TyreSpec } from './model/specs/tyre.ts';
export type { UnitSpec } from './model/specs/unit.ts';
export { SpecError } from './model/fields/spec-error.ts';
export type { SpecCode } from './model/fields/spec-error.ts';
export { shippedPart, shippedParts } from './model/parts/shipped.ts';
export type { ShippedPart } from './model/parts/part.ts';
export type { ChoiceField, Field, FieldDefault, Fields, GroupField, GroupsField } from './model/fields/field.ts';
export type { NumberField, NumbersField, ReferenceField, TextField } from './model/fields/field.ts';

// The car on the scales: what comes out, what goes in, what the axles then carry.
export { axleLoads, balance, moveToKeep, weighed } from './model/body/mass-ledger.ts';
export type { Balance, Item, MassLedger, Move, Room, Weighed } from './model/body/mass-ledger.ts';
export type { CompletedLedger } from './model/body/complete-ledger.ts';
export { weighFields } from './model/body/ledger-fields.ts';
export type { ItemSpec } from './model/specs/item.ts';
export type { TyreMarkSpec } from './model/specs/tyre-mark.ts';
export type { WeighSpec } from './model/specs/weigh.ts';
export type { AxleLimits, Limits } from './model/body/axle-check.ts';

// Pieces of the physics.
export { airDensity, densityAt, standardAtmosphere } from './model/air.ts';
export { indexForLoad, loadOfIndex, speedOfSymbol, symbolForSpeed } from './model/tyre/load-index.ts';
export { readTyreSize, TyreSizeError } from './model/tyre/size.ts';
export { frictionAtLoad, shapeFactor, shareAtSlip, slipAtShare, stiffnessFactor } from './model/tyre/slip.ts';
export { chargeShare } from './model/pack/charging.ts';
export { pilotCurrent, wallLimit } from './model/pack/supply.ts';
export type { Supply, WallLimit } from './model/pack/supply.ts';
export { LIMITERS, LIMITER_MEANING } from './model/forward/limiter.ts';
export type { Limiter } from './model/forward/limiter.ts';

// Runs.
export { launch } from './runs/launch/launch.ts';
export { doubtsOf } from './runs/doubts.ts';
export { weigh } from './runs/weigh/weigh.ts';
export { weighOutputs } from './runs/weigh/outputs.ts';
export { launchOutputs } from './runs/launch/outputs.ts';
export { sheet } from './runs/sheet/sheet.ts';
export type { SheetOptions } from './runs/sheet/sheet.ts';
export { sheetOutputs } from './runs/sheet/outputs.ts';
export { repeat } from './runs/launch/repeat.ts';
export type { RepeatOptions } from './runs/launch/repeat.ts';
export { repeatOutputs } from './runs/launch/repeat-outputs.ts';
export { drive } from './runs/trip/drive.ts';
export type { DriveOptions } from './runs/trip/drive.ts';
export { driveOutputs } from './runs/trip/drive-outputs.ts';
export { range } from './runs/trip/range.ts';
export type { RangeOptions } from './runs/trip/range.ts';
export { rangeOutputs } from './runs/trip/range-outputs.ts';
export { standardTest } from './runs/standard/range-test.ts';
export type { StandardTest } from './runs/standard/range-test.ts';
export { standardOutputs } from './runs/standard/outputs.ts';
export { steady } from './runs/trip/steady.ts';
export type { SteadyOptions } from './runs/trip/steady.ts';
export { steadyOutputs } from './runs/trip/steady-outputs.ts';
export { charge } from './runs/charge/charge.ts';
export type { ChargeOptions } from './runs/charge/run.ts';
export { chargeOutputs } from './runs/charge/outputs.ts';
export { hold, steadyPedal } from './runs/sheet/hold-speed.ts';
export type { Hold } from './runs/sheet/hold-speed.ts';
export { steepestHold, steepestStart } from './runs/sheet/hill.ts';
export type { Steepest, SteepestByLimit } from './runs/sheet/hill.ts';
export { createLauncher, createRanger } from './runs/askers.ts';
export type { LaunchOptions } from './runs/launch/run.ts';
export type { Figures } from './runs/sound.ts';
export type { ChargeSummary } from './runs/summaries/charge.ts';
export type { LaunchCurrents, TravelCurrents } from './runs/summaries/currents.ts';
export type { DriveSummary } from './runs/summaries/drive.ts';
export type { LaunchSummary } from './runs/summaries/launch.ts';
export type { RangeSummary } from './runs/summaries/range.ts';
export type { RepeatSummary } from './runs/summaries/repeat.ts';
export type { SheetSummary } from './runs/summaries/sheet.ts';
export type { StandardSummary } from './runs/summaries/standard.ts';
export type { SteadySummary } from './runs/summaries/steady.ts';
export type { WeighSummary } from './runs/summaries/weigh.ts';
export type {
  Band,
  Column,
  Ledger,
  Output,
  Result,
  ResultEvent,
  SecondOpinion,
  Series,
  Summary,
} from './runs/result.ts';

// What parts must stand: plain functions of currents and torques over time.
export { trackOfLevels, trackThrough } from './model/duty/track.ts';
export type { Track } from './model/duty/track.ts';
export { rootMeanSquare, windowed } from './model/duty/windows.ts';
export { spentOf, timeAt } from './model/duty/rating.ts';
export { classed, equivalentRange, equivalentTorque, rainflow, turningPoints } from './model/duty/rainflow.ts';
export { dischargeTime, precharged, storedEnergy } from './model/duty/precharge.ts';
export type { Precharge, Precharged } from './model/duty/precharge.ts';
export { bearable, meltingCurrent, prospectiveCurrent, worstPulse } from './model/duty/fuse.ts';
export { adiabaticConstant, leastSection, riseAfter, steadyRise, warmedBy } from './model/duty/cable.ts';
export { stop } from './model/duty/stop.ts';

// Any question to a car by its kind, in plain values.
export { createAsk, questionOf } from './runs/answer/described.ts';
export type { QuestionSpec } from './runs/answer/described.ts';
export type { Ask, AskOptions, OtherCar } from './runs/answer/ask.ts';
export type { Change } from './runs/answer/change.ts';
export { plainTrip } from './runs/answer/question.ts';
export type { Question, Run } from './runs/answer/question.ts';
export { RUN_KINDS, runKindOf } from './runs/kinds.ts';
export type { Asked, RunKind, RunValues } from './runs/kind.ts';

// What is driven: schedules that ship, of one's own, from a log; trips of several with stops.
export { scheduleNamed, scheduleNames } from './cycles/schedules.ts';
export type { ScheduleName } from './cycles/schedules.ts';
export { scheduleOf } from './cycles/schedule-of.ts';
export type { Schedule } from './cycles/schedule.ts';
export { steadySchedule } from './cycles/steady.ts';
export { LogError, readLog } from './cycles/log.ts';
export type { LogOptions, LogReading } from './cycles/log.ts';
export { ScheduleError } from './cycles/schedule-error.ts';
export { tripThrough } from './cycles/trip-through.ts';
export type { Leg, Plug, Stop, Trip } from './cycles/trip.ts';
