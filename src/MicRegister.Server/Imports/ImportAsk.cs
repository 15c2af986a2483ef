namespace MicRegister.Server.Imports;

/// <summary>What is asked for with files on their way in, by a command or by a program.</summary>
public sealed record ImportAsk
{
    /// <summary>The files, in the order in which they are taken.</summary>
    public required IReadOnlyList<AskedFile> Files { get; init; }

    /// <summary>Day of the import; null takes that of whoever works it out.</summary>
    public DateOnly? Today { get; init; }

    /// <summary>Day as of which the files speak; null takes the newest date in each.</summary>
    public DateOnly? AsOf { get; init; }

    /// <summary>What 03/04/2026 means: day-first or month-first; null where nobody says.</summary>
    public string? Dates { get; init; }

    /// <summary>Name of answers that the register keeps; null uses none.</summary>
    public string? Legend { get; init; }

    /// <summary>Whether rows that are put aside are given as tables to mend.</summary>
    public bool? Aside { get; init; }

    /// <summary>Whether good rows are stored where others are not.</summary>
    public bool? Partial { get; init; }

    /// <summary>Hash of the plan that was shown and is to be stored; null stores nothing.</summary>
    public string? Plan { get; init; }
}

/// <summary>A file with what was said of it alone.</summary>
/// <param name="Name">Its name, without a folder.</param>
public sealed record AskedFile(string Name)
{
    /// <summary>Text of its mapping; null where it has none.</summary>
    public string? Mapping { get; init; }

    /// <summary>Name of the file that the mapping is from.</summary>
    public string? MappingName { get; init; }

    /// <summary>Answers as rules of a legend, before those of the mapping.</summary>
    public string? Answers { get; init; }

    /// <summary>Why whoever holds the file cannot read it; null where it comes along.</summary>
    public string? Unreadable { get; init; }
}
