using System.Reflection;
using System.Runtime.CompilerServices;

namespace MicRegister.Server.Tests;

/// <summary>References run inward, and nothing inward knows HTTP, a database, JSON or the clock.</summary>
public sealed class DependencyTests
{
    private static readonly Dictionary<string, string[]> Allowed = new()
    {
        ["MicRegister.Metrology"] = [],
        ["MicRegister.Register"] = ["MicRegister.Metrology"],
        ["MicRegister.Storage.LiteDb"] = ["MicRegister.Metrology", "MicRegister.Register"],
        ["MicRegister.Documents"] = ["MicRegister.Metrology", "MicRegister.Register"],
        ["MicRegister.Server"] = ["MicRegister.Metrology", "MicRegister.Register", "MicRegister.Storage.LiteDb", "MicRegister.Documents"],
    };

    public static TheoryData<string> Projects => [.. Allowed.Keys];

    [Theory]
    [MemberData(nameof(Projects))]
    public void References_run_inward(string project) =>
        Assert.All(References(project).Where(r => r.StartsWith("MicRegister.", StringComparison.Ordinal)), r => Assert.Contains(r, Allowed[project]));

    [Theory]
    [InlineData("MicRegister.Metrology", "LiteDB Npgsql Microsoft.AspNetCore System.Net.Http System.Text.Json System.Data CsvHelper")]
    [InlineData("MicRegister.Register", "LiteDB Npgsql Microsoft.AspNetCore System.Net.Http System.Data CsvHelper")]
    [InlineData("MicRegister.Documents", "LiteDB Npgsql Microsoft.AspNetCore System.Net.Http System.Text.Json System.Data.Common.Db")]
    [InlineData("MicRegister.Storage.LiteDb", "Npgsql Microsoft.AspNetCore System.Net.Http System.Text.Json")]
    public void Inner_projects_know_no_outer_technology(string project, string technologies) =>
        Assert.All(technologies.Split(' '), t => Assert.DoesNotContain(References(project), r => r.StartsWith(t, StringComparison.Ordinal)));

    [Fact]
    public void Facts_are_read_and_written_as_json_in_one_folder_only()
    {
        var source = Path.Combine(Root(), "src");
        var inner = new[] { "MicRegister.Metrology", "MicRegister.Register", "MicRegister.Documents", "MicRegister.Storage.LiteDb" };
        var users = inner.SelectMany(p => Directory.EnumerateFiles(Path.Combine(source, p), "*.cs", SearchOption.AllDirectories))
            .Where(f => !f.Contains($"{Path.DirectorySeparatorChar}obj{Path.DirectorySeparatorChar}", StringComparison.Ordinal) && File.ReadAllText(f).Contains("System.Text.Json", StringComparison.Ordinal))
            .Select(f => Path.GetRelativePath(source, Path.GetDirectoryName(f)!)).Distinct();

        Assert.Equal([Path.Combine("MicRegister.Register", "Facts")], users);
    }

    [Fact]
    public void The_top_level_holds_what_it_should()
    {
        string[] expected = ["README.md", "DEVELOPERS.md", "MicRegister.sln", "src", "tests", "labels", "demo-inventory", "deploy", "global.json", "LICENSE", "Directory.Build.props", "Directory.Packages.props"];
        var there = Directory.EnumerateFileSystemEntries(Root()).Select(Path.GetFileName).Where(n => !n!.StartsWith('.') && n is not ("TestResults" or "artifacts")); // what git ignores

        Assert.All(there, n => Assert.Contains(n, expected));
    }

    private static IEnumerable<string> References(string project) => Assembly.Load(project).GetReferencedAssemblies().Select(a => a.Name!);

    private static string Root([CallerFilePath] string here = "") => Path.GetFullPath(Path.Combine(Path.GetDirectoryName(here)!, "..", ".."));
}
