using System.Reflection;
using System.Runtime.CompilerServices;

namespace MicRegister.Server.Tests.House;

/// <summary>Folders know each other in one direction only, so that a stranger can read one after the other.</summary>
public sealed class FolderTests
{
    // From the ground up; "." is what lies beside the folders. A folder may know those of the rows before its own, and of its own row none.
    private static readonly string[][] Register =
    [
        ["Facts"],
        ["Fold"],
        ["."],
        ["Devices", "People", "Intake"],
        ["Campaigns", "Settings"],
        ["Labels", "Calibration"],
        ["Checks", "Drift"],
        ["Deployment"],
        ["Events", "InPlace", "Mounting"],
        ["Doubts"],
        // Questions, which only read.
        ["Readiness", "Settling"],
        ["Tracing"],
        ["Comparison"],
    ];

    [Theory]
    [InlineData("MicRegister.Register")]
    [InlineData("MicRegister.Documents")]
    [InlineData("MicRegister.Server")]
    public void Folders_form_no_circle(string project)
    {
        var arrows = FolderArrows.Of(Assembly.Load(project).Location, project);

        Assert.True(arrows.Count > 5, $"Only {arrows.Count} arrows were found.");
        var circle = FolderArrows.Circle(arrows.Keys);
        var drawn = circle.Zip(circle.Skip(1))
            .SelectMany(a => arrows[(a.First, a.Second)].Select(w => $"{a.First} -> {a.Second}: {w}"));
        Assert.True(circle.Count == 0, string.Join(" -> ", circle) + "\n" + string.Join('\n', drawn));
    }

    [Fact]
    public void Folders_of_the_register_know_what_lies_below_them_only()
    {
        var level = Register.SelectMany((row, i) => row.Select(f => (f, i))).ToDictionary(x => x.f, x => x.i, StringComparer.Ordinal);
        var arrows = FolderArrows.Of(Assembly.Load("MicRegister.Register").Location, "MicRegister.Register");

        Assert.Equal(
            level.Keys.Order(StringComparer.Ordinal),
            arrows.Keys.SelectMany(a => new[] { a.From, a.To }).Distinct().Order(StringComparer.Ordinal));
        Assert.All(arrows, a => Assert.True(
            level[a.Key.To] < level[a.Key.From], $"{a.Key.From} knows {a.Key.To}: {string.Join("; ", a.Value)}"));
    }

    [Fact]
    public void Questions_hold_no_facts_of_their_own()
    {
        var body = typeof(MicRegister.Register.Facts.FactBody);
        var bodies = body.Assembly.GetTypes().Where(t => t.IsAssignableTo(body));

        string[] questions = ["Mounting", "Readiness", "Settling", "Tracing", "Comparison"];
        Assert.DoesNotContain(
            bodies, t => t.Namespace is { } n && questions.Any(q => n.EndsWith("." + q, StringComparison.Ordinal)));
    }

    [Theory]
    [InlineData("MicRegister.Register")]
    [InlineData("MicRegister.Documents")]
    [InlineData("MicRegister.Server")]
    public void A_namespace_is_the_folder_of_its_file(string project)
    {
        var root = Path.Combine(Root(), "src", project);
        foreach (var file in Directory.EnumerateFiles(root, "*.cs", SearchOption.AllDirectories))
        {
            var folder = Path.GetRelativePath(root, Path.GetDirectoryName(file)!);
            if (folder.Split(Path.DirectorySeparatorChar)[0] is "obj" or "bin") continue;
            if (File.ReadLines(file).FirstOrDefault(l => l.StartsWith("namespace ", StringComparison.Ordinal)) is not { } line) continue;
            Assert.Equal($"namespace {project}{(folder == "." ? "" : "." + folder.Replace(Path.DirectorySeparatorChar, '.'))};", line);
        }
    }

    // Two folders that know each other, and one that knows both, as an independent picture of what a circle is.
    [Fact]
    public void A_circle_is_found_where_there_is_one()
    {
        Assert.Equal(["A", "B", "A"], FolderArrows.Circle([("C", "A"), ("C", "B"), ("A", "B"), ("B", "A")]));
        Assert.Empty(FolderArrows.Circle([("C", "A"), ("C", "B"), ("A", "B")]));
    }

    private static string Root([CallerFilePath] string here = "") =>
        Path.GetFullPath(Path.Combine(Path.GetDirectoryName(here)!, "..", "..", ".."));
}
