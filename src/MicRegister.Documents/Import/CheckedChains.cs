using MicRegister.Register.Campaigns;
using MicRegister.Register.Deployment;
using MicRegister.Register.Facts;

namespace MicRegister.Documents.Import;

/// <summary>Which chain a check was of: the one that stood at its station then.</summary>
internal sealed class CheckedChains(Register.Register register, CampaignState campaign)
{
    private readonly ArrayDeployment _deployment = ArrayDeployment.Of(register, campaign.Id);

    /// <summary>The station and its chain.</summary>
    /// <param name="row">The row, which may name a station.</param>
    /// <param name="serial">Id of a device of the chain; null where none is named.</param>
    /// <param name="at">When; a bare day where no time was written down.</param>
    /// <exception cref="RowProblem">Nobody can tell which chain it was.</exception>
    public (string Station, IReadOnlyList<string> Devices) At(DiaryRow row, string? serial, Occurred at)
    {
        var station = row.Reader.Text(Column.Station);
        if (station is not null && !campaign.Stations.ContainsKey(station))
            throw row.Reader.Refused(Column.Station, $"{campaign.Name} has no such station; take a table of its stations over first");
        if (station is null && serial is null) throw row.MissingOf(Column.Station);
        var stood = _deployment.Placements.Where(p => (station is null || p.Station == station) && Stood(p, at)).ToList();
        var fitting = serial is null ? stood : stood.FindAll(p => p.Devices.Contains(serial));
        var chains = fitting.DistinctBy(p => p.Station + "\n" + string.Join('\n', p.Devices)).ToList();
        if (chains is [var only]) return (only.Station, only.Devices);
        if (chains.Count > 1)
        {
            throw Wrong(row, at.IsInstant
                ? $"{chains.Count} chains fit; name the station"
                : $"{chains.Count} chains stood there on {at}; write the time of the check");
        }
        if (stood.Count > 0) throw Wrong(row, $"the chain that stood there at {at} does not hold it");
        // Where nobody wrote down what was placed, the plan says what stands there, as it does at the desk.
        if (station is not null && _deployment.Placements.All(p => p.Station != station)
            && campaign.Chains.GetValueOrDefault(station, []) is { Length: > 0 } planned && (serial is null || planned.Contains(serial)))
        {
            return (station, planned);
        }
        throw Wrong(row, $"nothing stood there at {at} by the placements that are known");
    }

    private bool Stood(Placement p, Occurred at)
    {
        if (at.IsInstant) return p.StoodAt(at.UnixMilliseconds);
        var offsets = campaign.Plan?.Offsets ?? [];
        return p.From < ZoneOffsets.StartOfDay(at.Day.AddDays(1), offsets)
            && (p.Until ?? long.MaxValue) > ZoneOffsets.StartOfDay(at.Day, offsets);
    }

    private static RowProblem Wrong(DiaryRow row, string why)
    {
        var column = row.Reader.Text(Column.Station) is null ? Column.Serial : Column.Station;
        return row.Reader.Refused(column, why);
    }
}
