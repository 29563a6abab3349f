/** How a specimen must be treated from the moment it is drawn. A tube carries the marks of every test in it. */
export const HANDLING = ['light', 'ice', 'warm', 'upright', 'roomOnly', 'traceFree'] as const
export type Handling = (typeof HANDLING)[number]
