// Hands an error thrown while drawing to the terminal layer; it must never draw it on the glass.
import { Component } from 'react'
import type { ReactNode } from 'react'

type Props = { onError: (error: unknown) => void; children: ReactNode }

// React catches errors in class components only.
export class CatchErrors extends Component<Props, { hasFailed: boolean }> {
  override state = { hasFailed: false }

  static getDerivedStateFromError() {
    return { hasFailed: true }
  }

  override componentDidCatch(error: unknown) {
    this.props.onError(error)
  }

  override render() {
    return this.state.hasFailed ? null : this.props.children
  }
}
