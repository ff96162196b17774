// web/state/types.js: the shapes of the document, the answer and the page's state (types only).

/** @typedef {{code: string, path: string, value?: unknown, limit?: unknown}} Violation */
/** @typedef {{at_mm: number, diameter_mm: number, across_mm?: number}} BoreStation */
/** @typedef {{mm: number, label?: string}} Bit */
/** @typedef {{min?: number, max?: number}} Range */
/** @typedef {string | {hz: number}} Lowest */
/** @typedef {string | {cents: number[]}} Scale */

/**
 * The document as document.md describes it; keys this page does not read stay untouched.
 * @typedef {object} Doc
 * @property {string} format
 * @property {string} [name]
 * @property {{unit: string, fraction: number, datum: string}} [show]
 * @property {{room_c?: number, humidity_percent?: number, pressure_kpa?: number}} [air]
 * @property {{bore: BoreStation[], wall_mm?: number, outer_mm?: number, end_mm: number,
 *   above_mm?: number, material?: string}} tube
 * @property {{offset_mm?: number, thickness_mm?: number}} [plug]
 * @property {{length_mm: number, width_mm: number, wall_mm?: number}} sound_hole
 * @property {{lowest: Lowest, scale: Scale, holes: number, a4_hz?: number,
 *   tolerance_cents?: number, play_c?: number, fingerings?: number[][]}} song
 * @property {{bits?: Bit[], diameter_mm?: Range, spacing_mm?: Range, hands?: number[]}} [shop]
 */

/** @typedef {{at_mm: number, diameter_mm: number, inner_diameter_mm?: number,
 *   wall_mm?: number}} FingerHole */

/**
 * @typedef {object} Note
 * @property {number[]} open
 * @property {number} target_hz
 * @property {number | null} hz
 * @property {number | null} [second_hz]
 * @property {number | null} cents
 * @property {string} name
 * @property {number} interval_cents
 * @property {number | null} cents_per_mm
 * @property {number | null} cents_per_tenth_mm
 * @property {number | null} cents_per_mm_foot
 * @property {boolean} converged
 */

/** @typedef {{constraint: string, path: string, costs_cents: number}} Binding */

/**
 * What the tube is good for.
 * @typedef {object} Cane
 * @property {number} lowest_hz
 * @property {string} lowest_name
 * @property {number} spare_mm
 * @property {number} length_to_bore
 * @property {number} taper_percent
 * @property {number} oval_percent
 * @property {number} sound_speed_m_s
 * @property {number} bore_air_c
 * @property {string[]} warnings
 */

/** @typedef {Doc & {foot_mm: number, finger_holes: FingerHole[], notes: Note[],
 *   binding: Binding[], converged: boolean, worst_cents: number, cane: Cane}} Answer */

/** @typedef {{cents: number, open: number[], name: string}} ChartRow */

/** @typedef {{scales: {name: string, cents: number[]}[], fractions: number[], datums: string[],
 *   units: string[], materials: string[], defaults: Partial<Doc>}} Choices */

/**
 * A text as the maker typed it. `value` is what the core read from it (null: unreadable, the
 * document keeps the last readable one), `unit` the unit assumed then.
 * @typedef {{text: string, unit: string, value: unknown, problem: Violation | null}} Typed
 */

/**
 * @typedef {object} State
 * @property {Doc} doc what is entered now
 * @property {Doc} good the last document that had an answer
 * @property {Answer} answer the answer to `good`
 * @property {Violation[]} problems what the core says against `doc`
 * @property {string} fault a fault of ours, else empty
 * @property {Record<string, Typed>} typed texts by path
 * @property {ChartRow[]} chart default fingerings of the song
 * @property {{bits?: Bit[], diameter_mm?: Range, lowest?: Record<string, Lowest>,
 *   scale?: Scale}} aside what was set
 *   aside by a switch, to come back with it
 * @property {string} station the one shown on a narrow screen
 * @property {string} example the example document as text, to know an untouched page
 * @property {Kept | null} before what 'back to the example' replaced
 * @property {boolean} keeps whether this browser keeps what is typed
 */

/** @typedef {Pick<State, 'doc' | 'good' | 'typed' | 'aside' | 'station'>} Kept */

/** @typedef {ReturnType<typeof import('./desk.js').createDesk>} Desk */
/** @typedef {import('../engine/engine.js').Engine} Engine */

export {};
