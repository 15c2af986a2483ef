using System.Runtime.CompilerServices;
using System.Text.RegularExpressions;

namespace MicRegister.Server.Tests.House;

/// <summary>Pages are made of the library's components and of the parts of this project; what they draw by hand is counted here.</summary>
public sealed partial class ElementsOfPagesTests
{
    private const int MostByHand = 60;
    private const int LeastKinds = 30;

    private const string NotLive = "@attribute [ExcludeFromInteractiveRouting]";

    // Sources that draw elements themselves, each with its reason.
    private static readonly Dictionary<string, string> ByHand = new(StringComparer.Ordinal)
    {
        ["Pages/People/MePage.razor"] = "Its forms are posted to the door of accounts, which sets the cookie: the connection of a live page cannot.",
        ["Pages/Labels/LabelsPage.razor"] = "A layout is chosen by its picture: the key is the drawing itself.",
    };

    [Fact]
    public void No_page_has_the_field_that_makes_125_of_a_typed_12_comma_5() =>
        Assert.DoesNotContain(Sources(), s => s.Text.Contains("MudNumericField", StringComparison.Ordinal));

    [Fact]
    public void Elements_drawn_by_hand_are_few_and_each_has_its_reason()
    {
        var drawn = Sources().Select(s => (s.Path, s.Text, Count: Raw().Count(s.Text))).Where(s => s.Count > 0).ToList();

        Assert.InRange(drawn.Sum(s => s.Count), 1, MostByHand);
        Assert.All(drawn, s => Assert.True(
            s.Path.StartsWith("Pages/Parts/", StringComparison.Ordinal) || s.Text.Contains(NotLive, StringComparison.Ordinal)
                || ByHand.ContainsKey(s.Path),
            $"{s.Path} draws {s.Count} elements by hand: take a part, or give a reason here."));
        Assert.All(ByHand.Keys, path => Assert.Contains(drawn, s => s.Path == path)); // a reason that nothing needs goes
    }

    [Fact]
    public void The_library_does_real_work()
    {
        var kinds = Sources().SelectMany(s => Component().Matches(s.Text)).Select(m => m.Value).ToHashSet(StringComparer.Ordinal);

        Assert.True(kinds.Count >= LeastKinds, $"{kinds.Count} kinds: {string.Join(' ', kinds.Order(StringComparer.Ordinal))}");
    }

    private static List<(string Path, string Text)> Sources([CallerFilePath] string here = "")
    {
        var root = Path.GetFullPath(Path.Combine(Path.GetDirectoryName(here)!, "..", "..", "..", "src", "MicRegister.Server"));
        List<(string, string)> all = [.. Directory.EnumerateFiles(root, "*.razor", SearchOption.AllDirectories)
            .Select(f => (Path.GetRelativePath(root, f).Replace(Path.DirectorySeparatorChar, '/'), Note().Replace(File.ReadAllText(f), "")))
            .Where(f => f.Item1.Split('/')[0] is not ("obj" or "bin"))];
        Assert.NotEmpty(all);
        return all;
    }

    [GeneratedRegex(@"<(input|select|button|table|textarea)\b")]
    private static partial Regex Raw();

    [GeneratedRegex("<Mud[A-Z][A-Za-z]*")]
    private static partial Regex Component();

    // What is said beside it is not drawn.
    [GeneratedRegex(@"@\*.*?\*@", RegexOptions.Singleline)]
    private static partial Regex Note();
}
