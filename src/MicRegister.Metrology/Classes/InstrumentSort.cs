namespace MicRegister.Metrology.Classes;

/// <summary>A sort of instrument that standards sort into classes, with the editions that this program knows.</summary>
/// <remarks>
/// Editions and letters of sound calibrators: as read in prefaces and regulations that quote them; the printed tables of 1988 and 1997 were
/// not read, and that class LS is in the edition of 1997 is from memory, unchecked. Filters and meters: from the standards' own abstracts
/// (IEC 61260:1995 has classes 0 to 2, IEC 61260-1:2014 has 1 and 2) and from memory, unchecked.
/// </remarks>
public sealed class InstrumentSort
{
    private InstrumentSort(string words, string example, params ClassEdition[] editions) =>
        (Words, Example, Editions) = (words, example, editions);

    public static readonly InstrumentSort Calibrator = new(
        "sound calibrator", "'1L', '1/C', 'LS' or 'class 1, IEC 60942:2017'",
        new ClassEdition("IEC 942", 1988, "IEC 60942", ["0", "1", "2"]) { Ordinal = 1 },
        new ClassEdition("IEC 60942", 1997, "IEC 60942", ["LS", "1", "2"]) { Ordinal = 2, Letter = 'L' },
        new ClassEdition("IEC 60942", 2003, "IEC 60942", ["LS", "1", "2"]) { Ordinal = 3, Letter = 'C' },
        new ClassEdition("IEC 60942", 2017, "IEC 60942", ["LS", "1", "2"]) { Ordinal = 4, Letter = 'M' });

    public static readonly InstrumentSort Filter = new(
        "filter", "'class 1, IEC 61260:1995'",
        new ClassEdition("IEC 61260", 1995, "IEC 61260", ["0", "1", "2"]) { OtherNumbers = ["1260"] },
        new ClassEdition("IEC 61260-1", 2014, "IEC 61260", ["1", "2"]) { OtherNumbers = ["61260"] });

    public static readonly InstrumentSort Meter = new(
        "sound level meter", "'type 1, IEC 651:1979' or 'class 1, IEC 61672-1:2013'",
        new ClassEdition("IEC 651", 1979, "IEC 651", ["0", "1", "2", "3"]) { OtherNumbers = ["60651"], Word = "type" },
        new ClassEdition("IEC 804", 1985, "IEC 804", ["0", "1", "2", "3"]) { OtherNumbers = ["60804"], Word = "type" },
        new ClassEdition("IEC 61672-1", 2002, "IEC 61672-1", ["1", "2"]) { OtherNumbers = ["61672"] },
        new ClassEdition("IEC 61672-1", 2013, "IEC 61672-1", ["1", "2"]) { OtherNumbers = ["61672"] });

    /// <summary>Words for people.</summary>
    public string Words { get; }

    /// <summary>How a class is written, with examples in quotes.</summary>
    public string Example { get; }

    /// <summary>Editions, oldest first.</summary>
    public IReadOnlyList<ClassEdition> Editions { get; }

    /// <summary>All that is allowed, in words.</summary>
    public string Allowed => string.Join("; ", Editions.Select(e => e.Allowed));

    /// <summary>Place of a class in the order of all: 0 is the tightest.</summary>
    /// <returns>
    /// LS counts as 0, and so does class 0 of IEC 942:1988: that both are the tightest of their editions and take each other's place is an
    /// own reading (level tolerances 0.15 dB and 0.20 dB, from memory, unchecked).
    /// </returns>
    /// <exception cref="ArgumentException">No class is called so.</exception>
    public static int Rank(string name) => name switch
    {
        "LS" or "0" => 0,
        "1" => 1,
        "2" => 2,
        "3" => 3,
        _ => throw new ArgumentException($"'{name}' is no class; allowed are LS, 0, 1, 2, 3.", nameof(name)),
    };
}
