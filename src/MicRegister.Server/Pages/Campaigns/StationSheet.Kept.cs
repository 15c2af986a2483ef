using System.Text.Json;
using MicRegister.Documents.Import;
using MicRegister.Server.Api;

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

/// <summary>What was typed and not stored of a plan, as the browser's tab keeps it.</summary>
/// <param name="Version">The version of the campaign that was on the screen.</param>
/// <param name="At">When it was typed last, in UTC.</param>
/// <param name="Lines">The lines.</param>
internal sealed record PlanDraft(int Version, DateTimeOffset At, IReadOnlyList<UnsaidLine> Lines)
{
    /// <summary>Reads what a tab kept.</summary>
    /// <returns>Null where that is none: it may be of another release, or nobody wrote it here.</returns>
    public static PlanDraft? Read(string? text)
    {
        if (string.IsNullOrWhiteSpace(text)) return null;
        try
        {
            return ApiJson.Read<PlanDraft>(text) is { Lines.Count: <= StationSheet.MostLines } draft
                && draft.Lines.All(IsWhole) ? draft : null;
        }
        catch (JsonException)
        {
            return null;
        }
    }

    private static bool IsWhole(UnsaidLine line) =>
        line is { Texts: { } texts, Base: { } @base } && texts.Count == StationCells.All.Count && @base.Count == texts.Count
        && texts.Concat(@base).All(t => t is not null);
}

/// <summary>A line that is not stored, as it is kept for a reload.</summary>
internal sealed record UnsaidLine(string? Stored, IReadOnlyList<string> Texts, IReadOnlyList<string> Base, bool IsOut);
