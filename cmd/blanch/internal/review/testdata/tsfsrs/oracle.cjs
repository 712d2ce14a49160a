// Plays histories of reviews with ts-fsrs. Reads one JSON object from standard
// input, {histories: [{w, wanted, longest, reviews: [[grade, days], ...]}]},
// and writes {version, histories: [{w, steps: [[stability, difficulty, interval, recall]]}]}.
// An absent w means the default; w in the reply is what ts-fsrs made of it.
const { fsrs, generatorParameters, FSRSVersion } = require("ts-fsrs");
const input = JSON.parse(require("fs").readFileSync(0, "utf8"));
const histories = input.histories.map((h) => {
  const params = generatorParameters({
    w: h.w,
    request_retention: h.wanted,
    maximum_interval: h.longest,
    enable_fuzz: false,
    enable_short_term: true,
  });
  const f = fsrs(params);
  let memory = null;
  const steps = h.reviews.map(([grade, days]) => {
    const recall = memory === null ? 0 : f.forgetting_curve(days, memory.stability);
    memory = f.next_state(memory, days, grade);
    return [memory.stability, memory.difficulty, f.next_interval(memory.stability, days), recall];
  });
  return { w: Array.from(f.parameters.w), steps };
});
process.stdout.write(JSON.stringify({ version: FSRSVersion, histories }));
