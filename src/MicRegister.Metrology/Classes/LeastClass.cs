namespace MicRegister.Metrology.Classes;

/// <summary>The least class that a rule asks for, of one edition.</summary>
/// <param name="Stated">Class and letter, of one edition.</param>
/// <param name="OrLater">Whether the rule takes the same class of later editions too, as "as amended" does.</param>
public sealed record LeastClass(StatedClass Stated, bool OrLater)
{
    private static readonly string[] Later = [" or later", " as amended"];

    /// <summary>Class, letter and edition, as it is written: IEC 60942:1997 1L or later.</summary>
    public string Text => $"{Edition.Text} {Stated.Designation}{(OrLater ? " or later" : "")}";

    /// <summary>In words: class 1L of IEC 60942:1997 or a later edition.</summary>
    public string Words => Stated.Text + (OrLater ? " or a later edition" : "");

    public ClassEdition Edition => Stated.Edition!;

    /// <summary>Reads a least class.</summary>
    /// <param name="sort">The sort of instrument.</param>
    /// <param name="text">A class with its edition; "or later" or "as amended" may stand at its end.</param>
    /// <param name="wrong">What is wrong and what is allowed; also where no edition is stated and no letter decides it.</param>
    public static LeastClass? Read(InstrumentSort sort, string text, out string? wrong)
    {
        var trimmed = text.Trim();
        var end = Later.FirstOrDefault(l => trimmed.EndsWith(l, StringComparison.OrdinalIgnoreCase));
        if (ClassText.Read(sort, end is null ? trimmed : trimmed[..^end.Length], out wrong) is not { } stated) return null;
        if (stated.Edition is not null) return new(stated, end is not null);
        wrong = $"'{text}': a least class names its edition, as in '{stated.Editions[^1].Text} {stated.Designation} or later'; "
            + $"allowed are {sort.Allowed}";
        return null;
    }
}
