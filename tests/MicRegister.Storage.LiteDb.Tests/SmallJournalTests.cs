using MicRegister.Register.Facts;

namespace MicRegister.Storage.LiteDb.Tests;

public sealed class SmallJournalTests
{
    private const string Name = "small.journal";

    [Fact]
    public void A_power_cut_anywhere_leaves_all_acknowledged_lines_in_order()
    {
        const int seed = 1964;
        var random = new Random(seed);
        var files = new CrashFiles();
        var acknowledged = new List<(int Operations, int Lines)>();
        using (var journal = SmallJournal.Open(files, Name))
        {
            for (var i = 0; i < 40; i++)
            {
                journal.Append(Line(i));
                acknowledged.Add((files.Operations, i + 1));
            }
        }
        for (var cut = 0; cut < 400; cut++)
        {
            var after = random.Next(1, files.Operations + 1);
            var disk = CrashFiles.With(files.CrashState(after, random, cut % 4));
            var acked = acknowledged.Where(a => a.Operations <= after).Select(a => a.Lines).DefaultIfEmpty(0).Max();

            using (var journal = SmallJournal.Open(disk, Name))
            {
                Assert.True(journal.Lines.Count >= acked, $"seed {seed}, cut {cut} after {after}: {journal.Lines.Count} lines, {acked} acknowledged");
                Assert.Equal(Enumerable.Range(0, journal.Lines.Count).Select(Line), journal.Lines);
                journal.Append("more");
            }
            using var again = SmallJournal.Open(disk, Name);
            Assert.Equal("more", again.Lines[^1]);
        }
    }

    [Fact]
    public void Damage_before_other_lines_stops_the_opening_and_changes_nothing()
    {
        using var folder = new TemporaryFolder();
        using (var journal = SmallJournal.Open(folder.Files, Name))
        {
            for (var i = 0; i < 3; i++) journal.Append(Line(i));
        }
        var bytes = File.ReadAllBytes(folder.At(Name));
        bytes[10] ^= 1;
        File.WriteAllBytes(folder.At(Name), bytes);

        Assert.Contains("line 1 is damaged", Assert.Throws<StoreException>(() => SmallJournal.Open(folder.Files, Name)).Message, StringComparison.Ordinal);
        Assert.Equal(bytes, File.ReadAllBytes(folder.At(Name)));
    }

    [Fact]
    public void One_program_at_a_time()
    {
        using var folder = new TemporaryFolder();
        using var journal = SmallJournal.Open(folder.Files, Name);

        Assert.Throws<StoreInUseException>(() => SmallJournal.Open(folder.Files, Name));
        Assert.Throws<ArgumentException>(() => journal.Append("two\nlines"));
    }

    private static string Line(int i) => $"line {i} {new string('x', i * 37 % 700)}";
}
