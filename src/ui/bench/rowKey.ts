import type { BenchRow } from '../../core/bench/benchBoard.ts'

export const rowKey = ({ specimen }: BenchRow): string => `${specimen.drawId} ${specimen.tubeId}`
