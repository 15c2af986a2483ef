using System.Globalization;
using MicRegister.Documents.Import;
using MicRegister.Register;
using MicRegister.Register.Calibration;
using MicRegister.Register.Devices;

namespace MicRegister.Documents.Tests.Import;

/// <summary>
/// Lists of many hands, each with what a colleague reads off it beside it: devices, days and results, and what has to be asked. All of them
/// are invented; what they say was read by eye from the lists.
/// </summary>
public sealed class KeptListsTests
{
    private static string Folder => Path.Combine(AppContext.BaseDirectory, "Import", "Lists");

    public static TheoryData<string> Names => [.. Directory.EnumerateFiles(Folder, "*.csv")
        .Select(f => Path.GetFileNameWithoutExtension(f)).Order()];

    [Fact]
    public void The_lists_are_all_here() => Assert.Equal(41, Names.Count);

    [Theory]
    [MemberData(nameof(Names))]
    public void A_list_says_what_a_colleague_reads_off_it(string name)
    {
        var path = Path.Combine(Folder, name + ".csv");
        var session = new ImportSession(Register.Register.Empty(new FactList()), new DateOnly(2026, 6, 1));
        using var file = File.OpenRead(path);
        var report = session.Take(file, name + ".csv", ImportMapping.None);

        var asked = Single(report).Select(q => "asked " + q.Key);
        var refused = report.Outcomes.Where(o => o.Question is null && o.Sort is RowSort.Refused or RowSort.Questioned)
            .Select(o => FormattableString.Invariant($"refused {o.Row}"));
        var said = string.Join('\n', [.. Devices(session), .. asked, .. refused]);
        if (Environment.GetEnvironmentVariable("LISTS") is { } to) File.WriteAllText(Path.Combine(to, name + ".txt"), said + "\n");

        Assert.Equal(File.ReadAllText(Path.Combine(Folder, name + ".txt")).ReplaceLineEndings("\n").TrimEnd('\n'), said);
    }

    [Fact]
    public void Each_answer_that_is_offered_settles_its_question()
    {
        var offered = Names.Select(n => n.Data).SelectMany(name => Single(Taken(name, ImportMapping.None))
            .SelectMany(q => q.Choices.Select(c => (Name: name, Question: q, Rule: q.RuleOf(c))))).ToList();

        Assert.True(offered.Count > 20, "hardly anything is asked");
        Assert.All(offered, o => Assert.DoesNotContain(o.Question.Key,
            Single(Taken(o.Name, ImportMapping.Read(new StringReader(o.Rule), "answer"))).Select(q => q.Key)));
    }

    // Questions one by one, also those that are answered together.
    private static IEnumerable<ImportQuestion> Single(FileReport report) =>
        report.Questions.SelectMany(q => q.Parts.Count > 0 ? q.Parts : [q]);

    private static FileReport Taken(string name, ImportMapping mapping)
    {
        using var file = File.OpenRead(Path.Combine(Folder, name + ".csv"));
        return new ImportSession(Register.Register.Empty(new FactList()), new DateOnly(2026, 6, 1)).Take(file, name + ".csv", mapping);
    }

    private static IEnumerable<string> Devices(ImportSession session)
    {
        var register = FactList.RegisterOf([.. session.Facts]);
        foreach (var device in register.DeviceIds.Select(id => register.Device(id)!).OrderBy(d => d.Serial, StringComparer.Ordinal)
            .ThenBy(d => d.Kind, StringComparer.Ordinal))
        {
            yield return Line(
                [device.Kind, device.Maker, device.Model, device.Serial, device.Text(DeviceField.InventoryCode), device.Place,
                    device.Statuses.IsEmpty ? null : device.Status.ToString()]);
            foreach (var certificate in device.Certificates)
            {
                var issued = certificate.Issued;
                var results = issued.Results.Select(r => FormattableString.Invariant(
                    $"{r.Value} {r.Unit}{(r.ExpandedUncertainty is { } u ? FormattableString.Invariant($" U {u} {r.UncertaintyUnit}") : "")}{(r.CoverageFactor is { } k ? FormattableString.Invariant($" k {k}") : "")}"));
                yield return "   " + Line([certificate.Day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture), issued.Quantity,
                    .. results, issued.Laboratory,
                    issued.Number, issued.DueDay?.ToString("'due' yyyy-MM-dd", CultureInfo.InvariantCulture), issued.Remark]);
            }
        }
    }

    private static string Line(IEnumerable<string?> parts) => string.Join(" | ", parts.Where(p => !string.IsNullOrEmpty(p)));
}
