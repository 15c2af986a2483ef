using System.Globalization;
using MicRegister.Documents.Import;
using MicRegister.Register.Campaigns;
using MicRegister.Server.Work;

namespace MicRegister.Server.Pages.Campaigns;

/// <summary>What stands in the cells of a station.</summary>
internal static class StationTexts
{
    /// <summary>Whether what was typed into a cell means what stands in it in the usual words.</summary>
    public static bool Mean(Register.Register register, int column, string typed, string stored) => (StationCell)column switch
    {
        StationCell.Mount => StationCells.MountOf(typed) is { } mount && StationCells.MountWord(mount) == stored,
        StationCell.Chain => ChainText.Read(register, typed) is { Wrong: null } said && ChainText.Write(register, said.Ids) == stored,
        StationCell.Name => typed.Trim() == stored,
        _ => MeasuredText.TryRead(typed, out var a, out _) && MeasuredText.TryRead(stored, out var b, out _) && a.Equals(b),
    };

    /// <summary>A station in the usual words.</summary>
    public static string[] Of(Register.Register register, StationPlanned station, IReadOnlyList<string> chain) =>
    [
        station.Station, Number(station.LatitudeDeg), Number(station.LongitudeDeg), StationCells.MountWord(station.Mount),
        Number(station.HeightM), ChainText.Write(register, chain),
    ];

    private static string Number(double? value) => value?.ToString("R", CultureInfo.InvariantCulture) ?? "";
}
