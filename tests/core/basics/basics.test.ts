import { describe, expect, expectTypeOf, it, vi } from 'vitest'
import { defined } from '../../../src/core/basics/defined.ts'
import { createEmitter } from '../../../src/core/basics/emitter.ts'
import { errorText } from '../../../src/core/basics/errorText.ts'
import { isRecord } from '../../../src/core/basics/isRecord.ts'

describe('defined', () => {
  it('leaves out what is undefined and keeps what is null, zero or empty', () => {
    const object: { a: number | undefined; b: string | undefined; c: number } = {
      a: 1,
      b: undefined,
      c: 0,
    }
    const made = defined(object)
    expect(made).toEqual({ a: 1, c: 0 })
    expect('b' in made).toBe(false)
    expectTypeOf(made).toExtend<{ a?: number; b?: string; c: number }>()
  })
})

describe('an emitter', () => {
  it('tells every observer once until that observer has ended', () => {
    const { observe, emit } = createEmitter<number>()
    const seen = vi.fn()
    const end = observe(seen)
    observe(seen)
    emit(1)
    end()
    emit(2)
    expect(seen.mock.calls).toEqual([[1], [1], [2]])
  })

  it('may be ended by its own observer without another missing a value', () => {
    const { observe, emit } = createEmitter<string>()
    const other = vi.fn()
    const end = observe(() => end())
    observe(other)
    emit('a')
    expect(other).toHaveBeenCalledWith('a')
  })
})

describe('small readers', () => {
  it('knows an object from a list, null and text', () => {
    expect([{}, [], null, 'a'].map(isRecord)).toEqual([true, false, false, false])
  })

  it('gives a sentence for anything thrown', () => {
    expect([new Error('full'), 'gone'].map(errorText)).toEqual(['full', 'gone'])
  })
})
