import { Component, type ReactNode } from 'react';

interface BoundaryProps {
  /** what stands there when the picture has failed; nothing when left out */
  readonly otherwise?: ReactNode;
  readonly children: ReactNode;
}

/** A stage that fails takes nothing else with it. */
export class StageBoundary extends Component<BoundaryProps, { broken: boolean }> {
  override state = { broken: false };

  static getDerivedStateFromError(): { broken: boolean } {
    return { broken: true };
  }

  override render(): ReactNode {
    return this.state.broken ? (this.props.otherwise ?? null) : this.props.children;
  }
}
