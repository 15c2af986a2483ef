using System.Runtime.CompilerServices;

namespace MicRegister.Server.Tests;

/// <summary>
/// Lines over 150 columns become fewer and never more: <c>LongLines.txt</c> says how many each folder of <c>src</c> may still have.
/// With LONG_LINES=write in the environment the test writes the record anew, unless there are more of them in all.
/// </summary>
public sealed class LongLineTests
{
    [Fact]
    public void Lines_over_150_columns_only_become_fewer()
    {
        var lines = LongLines.In(Path.Combine(Here(), "..", "..", "src")).ToList();
        var counted = LongLines.Count(lines);
        var record = Path.Combine(Here(), "LongLines.txt");
        string[] stored = File.ReadAllLines(record);
        var allowed = LongLines.Read(stored);
        // What was moved to another folder counts there; it is no more than before.
        if (Environment.GetEnvironmentVariable("LONG_LINES") == "write" && counted.Values.Sum() <= allowed.Values.Sum())
        {
            File.WriteAllLines(record, [.. stored.TakeWhile(l => l.StartsWith('#')), .. LongLines.Written(counted)]);
            allowed = LongLines.Read(File.ReadAllLines(record));
        }

        var toDo = LongLines.ToDo(allowed, counted);
        var grown = lines.Where(l => counted[l.Folder] > allowed.GetValueOrDefault(l.Folder)).OrderByDescending(l => l.Length).Take(20)
            .Select(l => $"{l.Place} ({l.Length})");
        Assert.True(toDo.Count == 0, $"""
            {string.Join('\n', toDo)}
            Run this test with LONG_LINES=write, or paste into {Path.GetFileName(record)}:
            {string.Join('\n', LongLines.Written(counted))}
            The longest lines of folders that have more than they may:
            {string.Join('\n', grown)}
            """);
    }

    [Theory]
    [InlineData(3, 3, null)]
    [InlineData(3, 4, "Over 150 columns in A/B: 4, allowed 3. Break 1.")]
    [InlineData(0, 2, "Over 150 columns in A/B: 2, allowed 0. Break 2.")]
    [InlineData(3, 1, "Over 150 columns in A/B: 1, fewer than 3. Write 1.")]
    [InlineData(3, 0, "Over 150 columns in A/B: none any more. Take its line out.")]
    public void More_than_on_record_is_refused_and_fewer_are_to_be_written_down(int allowed, int counted, string? sentence)
    {
        Dictionary<string, int> Of(int count) => count == 0 ? [] : new() { ["A/B"] = count };

        Assert.Equal(sentence is null ? [] : [sentence], LongLines.ToDo(Of(allowed), Of(counted)));
    }

    [Fact]
    public void Our_own_sources_count_by_project_and_folder_and_150_columns_are_not_too_many()
    {
        using var folder = new TemporaryFolder();
        var (full, over) = (new string('x', 150), new string('x', 151));
        Say("A/Root.cs", over);
        Say("A/B/One.cs", "short", over, full);
        Say("A/B/Deep/Two.razor", over, over);
        Say("A/B/three.css", over);
        Say("A/B/four.js", full);
        foreach (var other in new[] { "A/B/README.md", "A/obj/Made.cs", "A/bin/Made.cs", "A/B/vendor/theirs.js" }) Say(other, over);

        var lines = LongLines.In(folder.Path).ToList();

        Assert.Equal(["A 1", "A/B 4"], LongLines.Written(LongLines.Count(lines)));
        Assert.Contains(("A/B", "A/B/One.cs:2", 151), lines);
        var counts = LongLines.Count(lines);
        Assert.Equal(counts, LongLines.Read(["# what it is", .. LongLines.Written(counts)]).OrderBy(c => c.Key));

        void Say(string path, params string[] said)
        {
            Directory.CreateDirectory(Path.GetDirectoryName(folder.At(path))!);
            File.WriteAllLines(folder.At(path), said);
        }
    }

    private static string Here([CallerFilePath] string path = "") => Path.GetDirectoryName(path)!;
}
