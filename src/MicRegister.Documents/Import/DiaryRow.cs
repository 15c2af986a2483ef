using MicRegister.Register;
using MicRegister.Register.Facts;

namespace MicRegister.Documents.Import;

/// <summary>A row of such a table on its way: its campaign once that is known, and what became of it.</summary>
internal sealed class DiaryRow(RowReader reader)
{
    public RowReader Reader { get; } = reader;

    public int Number => Reader.Row.Number;

    /// <summary>Id of its campaign; empty until it is known.</summary>
    public string Campaign { get; set; } = "";

    /// <summary>What became of it; null while nothing did.</summary>
    public RowOutcome? Outcome { get; private set; }

    public ImportQuestion? Question { get; private set; }

    public bool IsOpen => Outcome is null;

    public bool IsPutAside => Outcome is { Sort: RowSort.Refused or RowSort.Questioned };

    /// <summary>Says what became of it.</summary>
    public void Became(RowSort sort, string text) => Outcome = new(Reader.Sheet, Number, sort, text);

    /// <summary>Puts it aside for a reason.</summary>
    public void Became(RowProblem problem)
    {
        Question = problem.Question;
        Outcome = new(
            Reader.Sheet, Number, Question is null ? problem.Sort : RowSort.Questioned, problem.Message, problem.Header, problem.Value);
    }

    /// <summary>Does something with it that may find it bad.</summary>
    /// <returns>Whether it is good.</returns>
    public bool Try(Action work)
    {
        try
        {
            work();
            return true;
        }
        catch (RowProblem problem)
        {
            Became(problem);
            return false;
        }
        catch (FormatException e)
        {
            Became(new RowProblem(RowSort.Refused, e.Message));
            return false;
        }
    }

    public RowProblem MissingOf(Column column) =>
        new(RowSort.Refused, $"{column.Meaning} is missing.", Reader.HeaderOf(column), "");

    public string Must(Column column) => Reader.Text(column) ?? throw MissingOf(column);

    /// <summary>What was written beside it: remarks, columns that were kept, and who did it.</summary>
    public string? Remark()
    {
        var said = Reader.Header.Noted.Select(i => (Header: Reader.Header.Row.At(i).Shown, Text: Reader.Row.At(i).Shown))
            .Where(n => !RowReader.IsAbsent(n.Text)).Select(n => $"{n.Header}: {n.Text}");
        if (Reader.Text(Column.Note) is { } note) said = said.Prepend(note);
        if (Reader.Text(DiaryColumns.By) is { } by) said = said.Append("by " + by);
        return string.Join("; ", said) is { Length: > 0 } remark ? remark : null;
    }

    /// <summary>What was decided.</summary>
    /// <exception cref="RowProblem">It was rejected.</exception>
    public static IReadOnlyList<Fact> Decided(Result<IReadOnlyList<Fact>> result) =>
        result.Match(facts => facts, why => throw new RowProblem(RowSort.Refused, why.Text));
}
