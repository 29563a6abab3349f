interface HatchPatternProps {
  /** Named by what is filled with it. */
  readonly id: string
  /** Of the lines and their distance, in units of the drawing. */
  readonly scale: number
}

/** The hatching of what is not to be used; stands in `defs`. */
export function HatchPattern({ id, scale }: HatchPatternProps) {
  return (
    <pattern
      id={id}
      width="16"
      height="16"
      patternUnits="userSpaceOnUse"
      patternTransform={`scale(${scale})`}
    >
      <path className="hatchLine" d="M-4 4 L4 -4 M0 16 L16 0 M12 20 L20 12" />
    </pattern>
  )
}
