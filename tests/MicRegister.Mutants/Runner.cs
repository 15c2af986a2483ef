using System.Diagnostics;
using System.Globalization;

namespace MicRegister.Mutants;

/// <summary>Runs the tests that come by a change, with the change on, until one fails.</summary>
internal sealed class Runner
{
    private static readonly TimeSpan Short = TimeSpan.FromSeconds(3);

    private readonly List<(string Program, string Name, TimeSpan Took, HashSet<int> Met)> _classes = [];

    public Runner(string tree, Area area)
    {
        foreach (var project in area.Tests)
        {
            var program = Path.Combine(tree, "tests", project, "bin", "Debug", "net10.0", project);
            foreach (var name in Lines(program, "-list", "classes"))
            {
                if (area.Classes.Count > 0 && !area.Classes.Any(part => name.Contains(part, StringComparison.Ordinal))) continue;
                var met = Path.Combine(tree, "met.txt");
                File.Delete(met);
                var clock = Stopwatch.StartNew();
                var exit = Start(program, [name], 0, met, TimeSpan.FromMinutes(10));
                var text = File.Exists(met) ? File.ReadAllText(met) : "";
                var words = text.Split(' ', StringSplitOptions.RemoveEmptyEntries);
                var numbers = words.Select(n => int.Parse(n, CultureInfo.InvariantCulture)).ToHashSet();
                if (exit != 0) Failing.Add(name);
                else if (numbers.Count > 0) _classes.Add((program, name, clock.Elapsed, numbers));
            }
        }
        _classes.Sort((a, b) => a.Took.CompareTo(b.Took));
    }

    /// <summary>Number of test classes that a change can be noticed by.</summary>
    public int Classes => _classes.Count;

    /// <summary>Test classes that fail without any change, and so prove nothing.</summary>
    public List<string> Failing { get; } = [];

    /// <summary>Runs the classes that come by a change: first the quick ones together, then the others together.</summary>
    public Verdict Run(int number)
    {
        var meeting = _classes.Where(c => c.Met.Contains(number)).ToList();
        if (meeting.Count == 0) return Verdict.Unreached;
        foreach (var programs in meeting.GroupBy(c => (c.Program, IsLong: c.Took > Short)).OrderBy(g => g.Key.IsLong))
        {
            // Busy machines are slow: only what takes many times as long as it did is taken for endless.
            var most = TimeSpan.FromSeconds(Math.Max(30, 8 * programs.Sum(c => c.Took.TotalSeconds)));
            var exit = Start(programs.Key.Program, [.. programs.Select(c => c.Name)], number, "", most);
            if (exit is null) return Verdict.TimedOut;
            if (exit != 0) return Verdict.Killed;
        }
        return Verdict.Survived;
    }

    private static int? Start(string program, IReadOnlyList<string> classes, int number, string met, TimeSpan most)
    {
        var start = new ProcessStartInfo(program, [.. classes.SelectMany(c => new[] { "-class", c }), "-stopOnFail", "-noColor", "-noLogo"])
        {
            WorkingDirectory = Path.GetDirectoryName(program),
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        start.Environment["MUTANT"] = number.ToString(CultureInfo.InvariantCulture);
        start.Environment["MUTANTS_MET"] = met;
        using var process = Process.Start(start)!;
        process.OutputDataReceived += (_, _) => { };
        process.ErrorDataReceived += (_, _) => { };
        process.BeginOutputReadLine();
        process.BeginErrorReadLine();
        if (process.WaitForExit(most)) return process.ExitCode;
        process.Kill(entireProcessTree: true);
        process.WaitForExit();
        return null;
    }

    private static List<string> Lines(string program, params string[] arguments)
    {
        using var process = Process.Start(new ProcessStartInfo(program, arguments) { RedirectStandardOutput = true })!;
        var text = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        return [.. text.Split('\n', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries).Order(StringComparer.Ordinal)];
    }
}
