namespace MicRegister.Documents.Tests.Corpus;

/// <summary>A file of the corpus with what it says.</summary>
/// <param name="IsUsual">Whether its headers are the usual words, so that it tries the layout alone.</param>
internal sealed record CorpusFile(string Name, string Shape, Tongue Tongue, bool IsUsual, string? Damage, byte[] Bytes, Truth Truth,
    Draft Draft)
{
    /// <summary>One file; null where the damage finds no place in the shape. Without its damage it would be the same file.</summary>
    public static CorpusFile? Of(Shape shape, Tongue tongue, bool isUsual, Damage? damage, ulong seed)
    {
        var dice = new Dice(seed);
        var draft = shape.Draw(new(dice, isUsual ? Vocabulary.Of(tongue) : shape.Words(tongue), isUsual), Fleet.Of(dice));
        if (damage is not null && !damage.TryOn(draft, new(seed + (ulong)damage.Name.Length))) return null;
        var name = $"{shape.Name}-{tongue}-{damage?.Name ?? (isUsual ? "usual" : "any")}.{(draft.IsWorkbook ? "xlsx" : "csv")}";
        return new(name, shape.Name, tongue, isUsual, damage?.Name, draft.IsWorkbook ? BookFile.Of(draft) : TextFile.Of(draft),
            Truth.Of(draft), draft);
    }

    /// <summary>Each shape in each language, with the usual words and with any; and with each damage that finds a place in it, languages
    /// in turn.</summary>
    /// <param name="every">Takes only each so manieth damage of a shape.</param>
    public static IEnumerable<CorpusFile> All(IReadOnlyList<Shape> shapes, ulong seed, int every = 1)
    {
        var tongues = Enum.GetValues<Tongue>();
        for (var s = 0; s < shapes.Count; s++)
        {
            var first = seed + 1000UL * (ulong)s;
            foreach (var tongue in tongues) yield return Of(shapes[s], tongue, true, null, first + (ulong)tongue)!;
            foreach (var tongue in tongues) yield return Of(shapes[s], tongue, false, null, first + 100 + (ulong)tongue)!;
            for (var d = s % every; d < Damages.All.Count; d += every)
            {
                var tongue = tongues[(s + d) % tongues.Length];
                if (Of(shapes[s], tongue, true, Damages.All[d], first + (ulong)tongue) is { } file) yield return file;
            }
        }
    }

    public override string ToString() => Name;
}
