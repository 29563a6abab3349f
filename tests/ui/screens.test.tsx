// @vitest-environment jsdom
import { screen } from '@testing-library/react'
import { describe, expect, it } from 'vitest'
import { SCENES } from '../support/scenes.ts'
import { axeFindings } from './axe.ts'
import { renderApp } from './renderApp.tsx'

describe('every screen', () => {
  it.each(Object.keys(SCENES))('%s has nothing that axe objects to', async (scene) => {
    renderApp(SCENES[scene])
    expect(await axeFindings()).toEqual([])
  })

  it.each(Object.keys(SCENES))('%s has one first heading', (scene) => {
    renderApp(SCENES[scene])
    expect(screen.getAllByRole('heading', { level: 1 })).toHaveLength(1)
  })

  it('carries no style attribute that a strict content policy would refuse', () => {
    for (const scene of Object.values(SCENES)) {
      renderApp(scene)
      expect(document.querySelectorAll('[style]')).toHaveLength(0)
    }
  })
})
