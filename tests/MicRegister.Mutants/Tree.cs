using System.Diagnostics;

namespace MicRegister.Mutants;

/// <summary>The copy of the source that is changed, never the tree itself.</summary>
internal static class Tree
{
    private const string Switch = """
        namespace MicRegister.Mutants;

        /// <summary>Which change is on: the environment says so once. It can also note which changes are come by.</summary>
        public static class Mutant
        {
            private static readonly int On = int.TryParse(System.Environment.GetEnvironmentVariable("MUTANT"), out var n) ? n : 0;
            private static readonly bool[]? Met = Noted();

            public static bool Is(int number)
            {
                if (Met is not null) Met[number] = true;
                return number == On;
            }

            private static bool[]? Noted()
            {
                if (System.Environment.GetEnvironmentVariable("MUTANTS_MET") is not { Length: > 0 } file) return null;
                var met = new bool[100_000];
                System.AppDomain.CurrentDomain.ProcessExit += (_, _) => System.IO.File.WriteAllText(
                    file, string.Join(' ', System.Linq.Enumerable.Range(0, met.Length).Where(i => met[i])));
                return met;
            }
        }
        """;

    /// <summary>File of the copy that holds the switch.</summary>
    public const string SwitchFile = "MutantSwitch.cs";

    // Its warnings would be of the changes' own style.
    private static readonly string[] Loosely =
        ["-p:TreatWarningsAsErrors=false", "-p:EnforceCodeStyleInBuild=false", "-p:RunAnalyzers=false"];

    /// <summary>Copies the tree that this program was built in.</summary>
    public static string CopyTo(string work, Area area)
    {
        var from = AppContext.BaseDirectory;
        while (!File.Exists(Path.Combine(from, "MicRegister.sln")))
            from = Path.GetDirectoryName(from)
                ?? throw new InvalidOperationException("This program runs from within the tree that it was built in.");
        if (Directory.Exists(work)) Directory.Delete(work, recursive: true);
        Copy(new(from), work);
        File.WriteAllText(Path.Combine(work, "src", "MicRegister.Metrology", SwitchFile), Switch);
        Planted.Into(work, area);
        return work;
    }

    /// <summary>Builds test projects without the analyzers, which would only object to the changes' style.</summary>
    public static void Build(string tree, IEnumerable<string> projects)
    {
        foreach (var project in projects)
        {
            var start = new ProcessStartInfo(
                "dotnet", ["build", Path.Combine(tree, "tests", project), "-v", "q", "--nologo", "-m:1", .. Loosely])
            {
                WorkingDirectory = tree,
                RedirectStandardOutput = true,
            };
            using var build = Process.Start(start)!;
            var said = build.StandardOutput.ReadToEnd();
            build.WaitForExit();
            if (build.ExitCode == 0) continue;
            var errors = said.Split('\n').Where(l => l.Contains("error", StringComparison.Ordinal)).Distinct().Take(20);
            throw new InvalidOperationException(string.Join('\n', errors));
        }
    }

    private static void Copy(DirectoryInfo from, string to)
    {
        Directory.CreateDirectory(to);
        foreach (var file in from.GetFiles().Where(f => f.Name != ".git")) file.CopyTo(Path.Combine(to, file.Name));
        foreach (var folder in from.GetDirectories().Where(d => d.Name is not ("bin" or "obj" or ".git" or "TestResults")))
            Copy(folder, Path.Combine(to, folder.Name));
    }
}
