using MicRegister.Documents.Import;
using MicRegister.Documents.Sheets;
using MicRegister.Register.Intake;
using MicRegister.Server.Setup;

namespace MicRegister.Server.Imports;

/// <summary>A legend that the register keeps with an import that counts.</summary>
/// <param name="Id">Id of the import.</param>
/// <param name="File">Name of its file.</param>
/// <param name="Day">The day on which it was taken over.</param>
/// <param name="Legend">The legend.</param>
public sealed record KeptLegend(string Id, string File, DateOnly Day, ImportLegend Legend)
{
    /// <summary>All that are kept, the newest first, without those of imports that were taken back.</summary>
    public static IReadOnlyList<KeptLegend> All(Register.Register register) =>
        [.. register.TakenImports().Where(i => i.Accepted.Legend is not null && register.Counts(i.Sequence)).Reverse()
            .Select(i => new KeptLegend(i.Fact.Id.ToString(), i.Accepted.File, i.Fact.Occurred.Day, i.Accepted.Legend!))];

    /// <summary>The newest of a name.</summary>
    /// <exception cref="BadUseException">None has that name.</exception>
    public static KeptLegend Named(Register.Register register, string name)
    {
        var all = All(register);
        return all.FirstOrDefault(l => string.Equals(l.Legend.Name, name, StringComparison.OrdinalIgnoreCase))
            ?? throw new BadUseException($"No legend is kept as '{name}'; kept are "
                + (all.Count == 0 ? "none"
                    : string.Join(", ", all.Select(l => l.Legend.Name).Distinct(StringComparer.OrdinalIgnoreCase))) + ".");
    }

    /// <summary>The newest whose tables all stand in a file; null where there is none, or the file cannot be read.</summary>
    /// <param name="register">What is known.</param>
    /// <param name="content">The file; it must allow seeking.</param>
    /// <param name="name">Its name.</param>
    public static KeptLegend? Fitting(Register.Register register, Stream content, string name)
    {
        if (All(register) is not { Count: > 0 } all) return null;
        try
        {
            var shapes = TableShape.InFile(content, name);
            return all.FirstOrDefault(l => l.Legend.Shape.Count > 0 && l.Legend.Shape.All(shapes.Contains));
        }
        catch (SheetException)
        {
            return null; // said where the file is read
        }
    }
}
