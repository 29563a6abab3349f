import { Component, type ReactNode } from 'react'
import { errorText } from '../../core/basics/errorText.ts'

interface ErrorBoundaryProps {
  /** What to show in place of what broke, with the reason and a way to try it again. */
  readonly instead: (why: string, retry: () => void) => ReactNode
  readonly children: ReactNode
}

interface ErrorBoundaryState {
  readonly why: string | undefined
}

/** Keeps what breaks in one part of the page from taking the rest with it. React asks for a class here. */
export class ErrorBoundary extends Component<ErrorBoundaryProps, ErrorBoundaryState> {
  override state: ErrorBoundaryState = { why: undefined }

  static getDerivedStateFromError(error: unknown): ErrorBoundaryState {
    return { why: errorText(error) }
  }

  override render(): ReactNode {
    const { why } = this.state
    if (why === undefined) return this.props.children
    return this.props.instead(why, () => this.setState({ why: undefined }))
  }
}
