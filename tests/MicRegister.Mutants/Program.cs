using System.Diagnostics;
using System.Globalization;
using MicRegister.Mutants;

// use: MicRegister.Mutants AREA [--seed N] [--count N] [--work DIR] [--again FILE]
// Changes an area of the source in small ways, one at a time, and shows which changes no test notices. Works in a copy of the tree.
// --again runs only the changes that a list of survivors names, one "file:line change" a line, as this program prints them.
// Ends with 1 where the runner does not tell a planted change that is killed from one that cannot be, and with 2 where it cannot run.
if (args.Length == 0 || Area.Find(args[0]) is not { } area)
{
    Console.Error.WriteLine("use: MicRegister.Mutants AREA [--seed N] [--count N] [--work DIR] [--again FILE]");
    Console.Error.WriteLine("areas: " + string.Join(", ", Area.All.Select(a => a.Name)));
    return 2;
}
string Option(string name, string otherwise) => Array.IndexOf(args, name) is var i and > 0 && i + 1 < args.Length ? args[i + 1] : otherwise;
var seed = int.Parse(Option("--seed", "20261129"), CultureInfo.InvariantCulture);
var count = int.Parse(Option("--count", "150"), CultureInfo.InvariantCulture);
var work = Option("--work", Path.Combine(Path.GetTempPath(), "micregister-mutants-" + area.Name));
var again = Option("--again", "");
var clock = Stopwatch.StartNew();
string Bare(string line) =>
    (line.Split(' ') is [var first, .. var rest] && Enum.TryParse<Verdict>(first, out _) ? string.Join(' ', rest) : line).Trim();
int Seconds() => (int)clock.Elapsed.TotalSeconds;

var tree = Tree.CopyTo(work, area);
Tree.Build(tree, area.Tests);
var sites = new Sites(tree, area);
var wanted = again.Length > 0 ? File.ReadAllLines(again).Select(Bare).ToHashSet(StringComparer.Ordinal) : null;
var mutants = sites.Choose(seed, count, wanted);
Console.WriteLine(FormattableString.Invariant(
    $"{area.Name}: seed {seed}, {mutants.Count} of {sites.Candidates} candidates, {Seconds()} s"));
foreach (var file in mutants.GroupBy(m => m.File)) File.WriteAllText(file.Key, Weaver.Woven(File.ReadAllText(file.Key), [.. file]));
Tree.Build(tree, area.Tests);

var runner = new Runner(tree, area);
Console.WriteLine(FormattableString.Invariant($"{area.Name}: {runner.Classes} test classes looked at, {Seconds()} s"));
if (runner.Failing.Count > 0) Console.WriteLine("Left out, since they fail without any change: " + string.Join(", ", runner.Failing));
var planted = mutants.Where(m => Planted.IsIn(m.File)).ToList();
foreach (var mutant in planted)
{
    var verdict = runner.Run(mutant.Number);
    Console.WriteLine($"planted: {mutant.Change}: {verdict}");
    if (verdict == Planted.Expected(mutant.Change)) continue;
    Console.Error.WriteLine($"The runner cannot be trusted: {mutant.Change} must be {Planted.Expected(mutant.Change)}.");
    return 1;
}
if (planted.Select(m => Planted.Expected(m.Change)).Distinct().Count() < 3)
    throw new InvalidOperationException("Planted changes are missing.");

var verdicts = new Dictionary<Verdict, int>();
foreach (var mutant in mutants.Except(planted))
{
    var verdict = runner.Run(mutant.Number);
    verdicts[verdict] = verdicts.GetValueOrDefault(verdict) + 1;
    Console.WriteLine($"{verdict,-9} {mutant.In(tree)}");
}
int Of(Verdict verdict) => verdicts.GetValueOrDefault(verdict);
int total = verdicts.Values.Sum(), dead = Of(Verdict.Killed) + Of(Verdict.TimedOut);
Console.WriteLine(
    FormattableString.Invariant($"{area.Name}: {dead} of {total} killed ({100.0 * dead / Math.Max(1, total):0.0} %), ")
    + FormattableString.Invariant($"of them {Of(Verdict.TimedOut)} by time; ")
    + FormattableString.Invariant($"{Of(Verdict.Survived)} survived, {Of(Verdict.Unreached)} not reached by any test; ")
    + FormattableString.Invariant($"seed {seed}, {Seconds()} s"));
return 0;
