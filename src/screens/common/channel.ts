import { channels } from "./messages.ts";

/** A channel as people call it; what the recorder names otherwise keeps its name. */
export const channelWords = (channel: string): string => channels[channel] ?? channel;
