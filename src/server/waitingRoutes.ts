import type { FastifyInstance } from "fastify";
import type { WaitingView } from "../workshop/views.ts";
import type { Workshop } from "../workshop/workshop.ts";
import type { RecorderFolder } from "./recorderFolder.ts";

/** Recorder's files that wait for somebody to say what they are of. */
export function addWaitingRoutes(app: FastifyInstance, workshop: Workshop, watched?: RecorderFolder): void {
  app.get("/api/waiting", async (): Promise<WaitingView> => {
    return {
      ...(watched && { folder: watched.folder, isThere: watched.isThere() }),
      files: workshop.waitingFiles.waiting(),
      refused: watched?.refused() ?? [],
    };
  });
  app.post<{ Params: { file: string } }>("/api/waiting/:file/aside", async (request) => {
    workshop.waitingFiles.setAside(request.params.file);
    return { files: workshop.waitingFiles.waiting() };
  });
}
