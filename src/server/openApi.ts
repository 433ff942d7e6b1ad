import { z } from "zod";
import type { Calculation } from "../calculations/calculation.ts";

/** The published description of every calculation's door, OpenAPI 3.1, made from the calculations' own schemas. */
export function openApi(papers: readonly Calculation[], version: string): object {
  return {
    openapi: "3.1.0",
    info: {
      title: "Stillglow calculations",
      version,
      description:
        "Each calculation is a pure function: the same input gives the same answer. Bad input is answered 422.",
    },
    jsonSchemaDialect: "https://json-schema.org/draft/2020-12/schema",
    paths: Object.fromEntries(papers.map((paper) => [`/api/calc/${paper.name}`, { post: operation(paper) }])),
  };
}

function operation(paper: Calculation): object {
  return {
    operationId: paper.name,
    summary: paper.title,
    description: [
      paper.validity,
      ...paper.sources.map((source) => `Source: ${source}`),
      ...paper.cautions.map((caution) => `Caution: ${caution}`),
    ].join("\n\n"),
    requestBody: {
      required: true,
      content: {
        "application/json": {
          schema: z.toJSONSchema(paper.input, { io: "input", unrepresentable: "any" }),
          example: paper.example,
        },
      },
    },
    responses: {
      "200": {
        description: "the answer",
        content: {
          "application/json": { schema: z.toJSONSchema(paper.output, { io: "output", unrepresentable: "any" }) },
        },
      },
      "422": {
        description: "one field is wrong; nothing was computed",
        content: {
          "application/json": {
            schema: {
              type: "object",
              required: ["error"],
              properties: {
                error: {
                  type: "object",
                  required: ["path", "message"],
                  properties: { path: { type: "string" }, message: { type: "string" } },
                },
              },
            },
          },
        },
      },
    },
  };
}
