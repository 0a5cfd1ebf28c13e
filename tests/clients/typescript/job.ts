// The whole job by a typed client: `node job.js ADDRESS FILE`, a line a question.
import { readFileSync } from "node:fs";
import createClient from "openapi-fetch";
import type { components, paths } from "./schema.js";

type Build = components["schemas"]["Build"];
type Problem = components["schemas"]["Problem"];

const [address, file] = process.argv.slice(2);
if (address === undefined || file === undefined) throw new Error("job.js ADDRESS FILE");
// Without the media types every answer would be typed as values or as text.
type Media = "application/json" | "application/problem+json";
const client = createClient<paths, Media>({ baseUrl: address });
const draft = JSON.parse(readFileSync(file, "utf-8")) as Build;

function given<T>(answer: { data?: T; error?: Problem }): T {
  if (answer.data === undefined) throw new Error(answer.error?.title ?? "no answer");
  return answer.data;
}

const size = given(await client.GET("/v1/sizes/{stock}", { params: { path: { stock: "1x6" } } }));
console.log("size", size.stock, size.sold.width?.listed.in);

const checked = given(
  await client.POST("/v1/check", { params: { query: { mended: "true" } }, body: draft }),
);
console.log("check", checked.verdict, ...checked.findings.map((finding) => finding.code));
const build = checked.mended;
if (build === undefined) throw new Error("nothing was mended");
const mended = given(await client.POST("/v1/check", { body: build }));
console.log("mended", mended.verdict, mended.findings.length);

const fastened = given(await client.POST("/v1/fasteners", { body: build }));
for (const joint of fastened.joints) {
  const best = joint.options[0];
  console.log("fasteners", joint.joint, best?.method, best?.count);
}

const plan = given(
  await client.POST("/v1/cut-plan", { params: { query: { deadline_s: 2 } }, body: build }),
);
console.log("plan", plan.status, plan.cost, plan.over_budget, plan.boards.length);

const estimate = given(await client.POST("/v1/estimate", { body: build }));
console.log("estimate", estimate.cost.total);

const resized = given(
  await client.POST("/v1/resize", { body: { build, to: { width: "31 1/2" } } }),
);
console.log("resize", resized.verdict, resized.changed.length);

const page = given(
  await client.POST("/v1/handout", { params: { query: { format: "json" } }, body: build }),
);
console.log("handout", page.title === "Counter riser", page.sections.length > 5);

const refused = await client.POST("/v1/fasteners", { body: { name: "x", parts: [] } });
console.log("refused", refused.error?.status);
