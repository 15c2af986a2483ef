using MicRegister.Documents.Import;
using MicRegister.Register.Campaigns;
using MicRegister.Server.Pages.Parts;

namespace MicRegister.Server.Pages.Campaigns;

/// <summary>A station as it is being typed.</summary>
/// <param name="key">What the line is known by.</param>
internal sealed class StationLine(string key)
{
    public string Key { get; } = key;

    /// <summary>Name of the station that it changes; null where it adds one.</summary>
    public string? Stored { get; set; }

    /// <summary>What stands in its cells.</summary>
    public string[] Texts { get; } = [.. StationCells.All.Select(_ => "")];

    /// <summary>What stood in them when they were last filled from the register.</summary>
    public string[] Base { get; } = [.. StationCells.All.Select(_ => "")];

    /// <summary>Whether it is to be taken out.</summary>
    public bool IsOut { get; set; }

    /// <summary>What is to be said of it; null where nothing is.</summary>
    public string? Note { get; set; }

    /// <summary>What cannot be so, a cell each.</summary>
    public string?[] Wrong { get; } = new string?[StationCells.All.Count];

    /// <summary>What its chain means, or what is to be thought of.</summary>
    public string?[] Told { get; } = new string?[StationCells.All.Count];

    /// <summary>The station that it says; null where something cannot be so, or nothing stands there.</summary>
    public StationPlanned? Plan { get; set; }

    /// <summary>Ids of the devices that it says.</summary>
    public IReadOnlyList<string> Chain { get; set; } = [];

    public string Name => Texts[(int)StationCell.Name].Trim();

    /// <summary>Whether nothing stands in it that was not there before.</summary>
    public bool IsUntouched => !IsOut && Texts.AsSpan().SequenceEqual(Base);

    public bool IsEmpty => Stored is null && Texts.All(string.IsNullOrWhiteSpace);

    /// <summary>Whether one of its cells cannot be so.</summary>
    public bool IsWrong => !IsOut && Wrong.Any(w => w is not null);

    /// <summary>The line as it is drawn.</summary>
    /// <param name="number">Its number, from 1.</param>
    public GridLine Drawn(int number) => new(
        Key,
        Name.Length > 0 ? $"station {Name}" : FormattableString.Invariant($"line {number}"),
        [.. StationCells.All.Select(c => new GridCell(
            Texts[(int)c], IsOut ? null : Wrong[(int)c], IsOut ? null : Told[(int)c], Texts[(int)c] != Base[(int)c],
            c == StationCell.Name && Stored is not null))],
        Note, IsOut, !IsEmpty);
}
