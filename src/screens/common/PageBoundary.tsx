import { Component, type ReactNode } from "react";
import { common } from "./messages.ts";
import { TroubleNote } from "./Waiting.tsx";

interface Props {
  readonly children: ReactNode;
}

/**
 * A page that could not be drawn, or whose own part could not be fetched, says so in its place: the ways elsewhere
 * stay, and what was typed is kept. Give it the address as key, so that another page starts afresh.
 */
export class PageBoundary extends Component<Props, { readonly isBroken: boolean }> {
  override state = { isBroken: false };

  static getDerivedStateFromError() {
    return { isBroken: true };
  }

  override render() {
    if (!this.state.isBroken) return this.props.children;
    // A part that failed to load is not asked for a second time by itself: the page is loaded anew.
    return <TroubleNote error={new Error(common.pageBroken)} again={() => window.location.reload()} alone />;
  }
}
