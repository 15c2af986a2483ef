using System.Globalization;
using MicRegister.Register.Campaigns;

namespace MicRegister.Documents.Import;

/// <summary>What a row changes of a plan or a requirement profile, field by field, with the words of its columns.</summary>
internal static class PlannedChanges
{
    private const string Nothing = "nothing";

    /// <summary>What differs between two plans of a campaign; nothing where there was none.</summary>
    public static IReadOnlyList<FieldChange> Of(CampaignPlanned? before, CampaignPlanned after) => before is null ? [] : Differing(
        (Column.Campaign, before.Name, after.Name),
        (Column.FirstDay, before.FirstDay, after.FirstDay),
        (Column.LastDay, before.LastDay, after.LastDay),
        (Column.Zone, before.Zone, after.Zone),
        (Column.Offset, Offsets(before), Offsets(after)),
        (Column.Site, before.Site, after.Site),
        (Column.Altitude, before.AltitudeM, after.AltitudeM),
        (Column.Source, before.Source.InWords, after.Source.InWords),
        (Column.BandFrom, before.LowestHz, after.LowestHz),
        (Column.BandTo, before.HighestHz, after.HighestHz),
        (Column.QuietDb, before.LowestLevelDb, after.LowestLevelDb),
        (Column.LoudDb, before.HighestLevelDb, after.HighestLevelDb),
        (Column.Profile, before.Profile, after.Profile),
        (Column.Losses, before.PermittedLosses, after.PermittedLosses),
        (Column.SparesWanted, before.SparesWanted, after.SparesWanted));

    /// <summary>What differs between two plans of a station.</summary>
    public static IReadOnlyList<FieldChange> Of(StationPlanned? before, StationPlanned after) => before is null ? [] : Differing(
        (Column.Latitude, before.LatitudeDeg, after.LatitudeDeg),
        (Column.Longitude, before.LongitudeDeg, after.LongitudeDeg),
        (Column.Mount, before.Mount.InWords, after.Mount.InWords),
        (Column.Height, before.HeightM, after.HeightM));

    /// <summary>What differs between two limits of one key.</summary>
    public static IReadOnlyList<FieldChange> Of(ProfileLimit? before, ProfileLimit after) => before is null ? [] : Differing(
        (Column.Value, before.Value, after.Value),
        (Column.LimitText, before.Text, after.Text),
        (Column.Source, before.Source, after.Source),
        (Column.Certainty, before.Certainty, after.Certainty));

    private static string Offsets(CampaignPlanned plan) =>
        string.Join(", ", plan.Offsets.Select(o => FormattableString.Invariant($"{o.Minutes} from {o.FromUtc}")));

    private static List<FieldChange> Differing(params (Column Column, object? Before, object? After)[] fields) =>
        [.. fields.Where(f => !Equals(f.Before, f.After)).Select(f => new FieldChange(f.Column.Meaning, Text(f.Before), Text(f.After)))];

    private static string Text(object? value) => value switch
    {
        null or "" => Nothing,
        DateOnly day => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
        _ => Convert.ToString(value, CultureInfo.InvariantCulture) ?? Nothing,
    };
}
