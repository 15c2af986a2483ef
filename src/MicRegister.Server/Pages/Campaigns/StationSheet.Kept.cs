namespace MicRegister.Server.Pages.Campaigns;

/// <content>What is kept of it over a reload.</content>
internal sealed partial class StationSheet
{
    /// <summary>What is not stored, to stand here again after a reload.</summary>
    public IReadOnlyList<UnsaidLine> Keep() => [.. Unsaid.Select(l => new UnsaidLine(l.Stored, [.. l.Texts], [.. l.Base], l.IsOut))];

    /// <summary>Lets stand what was kept before.</summary>
    public void Restore(Register.Register register, IReadOnlyList<UnsaidLine> kept)
    {
        foreach (var (stored, texts, @base, isOut) in kept)
        {
            var line = stored is null ? null : _lines.Find(l => l.Stored == stored);
            if (line is null)
            {
                if (isOut || !Add(atEnd: false)) continue;
                line = _lines[^1];
            }
            for (var i = 0; i < texts.Count; i++)
            {
                if (stored is null || texts[i] != @base[i]) line.Texts[i] = texts[i];
            }
            line.IsOut = isOut;
        }
        Work(register);
    }
}

/// <summary>What was typed and not stored of a plan.</summary>
/// <param name="Version">The version of the campaign that was on the screen.</param>
/// <param name="Lines">The lines.</param>
internal sealed record PlanDraft(int Version, IReadOnlyList<UnsaidLine> Lines);

/// <summary>A line that is not stored, as it is kept for a reload.</summary>
internal sealed record UnsaidLine(string? Stored, IReadOnlyList<string> Texts, IReadOnlyList<string> Base, bool IsOut);
