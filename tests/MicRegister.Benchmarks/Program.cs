using MicRegister.Benchmarks;

// use: MicRegister.Benchmarks [--work FOLDER] [lines|drift|tones|labels|trace|readiness|corrections|clocks|accounts|append|start|import|bench|bounds]...
// all when none is named
if (args is ["start-child", var child, var keep])
{
    RegisterBenchmarks.StartChild(child, keep == "keep");
    return;
}
var rest = args.ToList();
var at = rest.IndexOf("--work");
var work = at >= 0 ? rest[at + 1] : Path.Combine(Path.GetTempPath(), "micregister-benchmarks");
if (at >= 0) rest.RemoveRange(at, 2);
Directory.CreateDirectory(work);
bool Wanted(string name) => rest.Count == 0 || rest.Contains(name);

Console.WriteLine("| what | here | beside it | to reach |");
Console.WriteLine("|---|---|---|---|");
if (Wanted("lines")) LineBenchmark.Run(work);
if (Wanted("drift")) DriftBenchmark.Run(work);
if (Wanted("tones")) ToneBenchmark.Run(work);
if (Wanted("labels")) LabelBenchmark.Run(work);
if (Wanted("trace")) TraceBenchmark.Run(work);
if (Wanted("readiness")) RegisterBenchmarks.Readiness();
if (Wanted("corrections")) CorrectionBenchmark.Run();
if (Wanted("clocks")) await ClockBenchmark.Run(work);
if (Wanted("accounts")) await AccountBenchmark.Run(work);
if (Wanted("append")) RegisterBenchmarks.Append(work);
if (Wanted("start")) await RegisterBenchmarks.Start(work);
if (Wanted("import")) RegisterBenchmarks.Import();
if (Wanted("bench")) await BenchBenchmark.Key(work);
if (Wanted("bounds")) BenchBenchmark.Bounds();
