using MicRegister.Documents.Import;
using MicRegister.Documents.Sheets;
using MicRegister.Register;
using MicRegister.Register.Facts;

namespace MicRegister.Documents.Tests.Corpus;

/// <summary>What the reader made of a file, on an empty register.</summary>
/// <param name="Facts">What it would store.</param>
/// <param name="Questions">What a person is asked, row by row and of the file as a whole.</param>
/// <param name="Notices">What a person is told.</param>
internal sealed record Reading(IReadOnlyList<Fact> Facts, IReadOnlyList<string> Questions, IReadOnlyList<string> Notices)
{
    /// <summary>Questions that one answer settles for all their rows.</summary>
    public IReadOnlyList<ImportQuestion> Open { get; private init; } = [];

    /// <summary>The day of the import; all days of the fleet lie before it.</summary>
    public static DateOnly Today { get; } = new(2026, 6, 1);

    public static Reading Of(CorpusFile file) => Of(file, ImportMapping.None);

    /// <summary>The same where a person has said something of the file.</summary>
    public static Reading Of(CorpusFile file, ImportMapping said)
    {
        var session = new ImportSession(Register.Register.Empty(new FactList()), Today);
        try
        {
            var report = session.Take(new MemoryStream(file.Bytes), file.Name, said);
            var rows = report.Outcomes.Where(o => o.Sort is RowSort.Questioned or RowSort.Refused && o.Question is null)
                .Select(o => $"row {o.Row}: {o.Text}");
            // What one answer settles counts once, however many rows wait for it.
            var asked = report.Questions.Select(q => $"{q.Text} [{string.Join(" | ", q.Choices.Select(c => c.Words).Take(4))}]");
            return new(session.Facts, [.. asked, .. rows, .. report.Problems], report.Notices) { Open = report.Questions };
        }
        catch (SheetException e)
        {
            return new([], [e.Message], []);
        }
    }
}
