namespace MicRegister.Register.Facts;

/// <summary>Who states a fact, when it occurred, and on which client.</summary>
/// <param name="Occurred">When it happened.</param>
/// <param name="Author">Id of a person, or <see cref="Import"/>.</param>
/// <param name="Client">The device or program.</param>
/// <param name="Counter">How many facts that client had stated before.</param>
public sealed record FactStamp(Occurred Occurred, string Author, string Client, long Counter)
{
    /// <summary>
    /// Author and client of facts that stand for rows of a file: they must have the same bytes whoever imports the file, so
    /// the person is found in the import's own fact.
    /// </summary>
    public const string Import = "import";

    /// <summary>The stamp of a row's fact.</summary>
    /// <param name="occurred">Date in the row, or <see cref="Occurred.Unknown"/>.</param>
    /// <param name="rank">Order among the facts of one row and day: a registration comes before a move.</param>
    public static FactStamp Imported(Occurred occurred, int rank) => new(occurred, Import, Import, rank);
}
