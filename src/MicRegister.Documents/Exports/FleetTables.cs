using MicRegister.Register.Campaigns;

namespace MicRegister.Documents.Exports;

/// <summary>
/// A register as tables that an import takes back without a question: into the same register they change nothing, into an empty one they
/// bring the same devices, results, inspections, campaigns, limits and settings. What they do not hold is named.
/// </summary>
/// <param name="Tables">Tables by the name of their file or sheet, in the order in which they are to be taken back.</param>
/// <param name="Left">What stays behind.</param>
public sealed record FleetTables(IReadOnlyList<(string Name, ExportTable Table)> Tables, LeftBehind Left)
{
    /// <summary>Names of tables about devices.</summary>
    public static IReadOnlyList<string> OfDevices { get; } = ["devices", "results", "inspections"];

    /// <summary>Names of tables about campaigns.</summary>
    public static IReadOnlyList<string> OfCampaigns { get; } = ["campaigns", "stations", "kit"];

    /// <summary>All names, in the order in which they are to be taken back.</summary>
    public static IReadOnlyList<string> All { get; } = ["settings", "limits", .. OfDevices, .. OfCampaigns];

    /// <summary>Draws the tables from a register.</summary>
    /// <param name="register">The register.</param>
    /// <param name="today">The day on which they leave.</param>
    /// <param name="provenance">Register id, sequence, chain hash, set digest, version.</param>
    /// <param name="wanted">Names of the tables that are wanted; null wants all that hold something.</param>
    /// <param name="devices">Ids of the devices that are wanted; null wants all of them.</param>
    /// <param name="campaign">Id of the campaign that is wanted; null wants all of them.</param>
    /// <param name="cancel">Gives up.</param>
    public static FleetTables Of(
        Register.Register register, DateOnly today, IReadOnlyList<(string Name, string Value)> provenance,
        IReadOnlyList<string>? wanted = null, IReadOnlySet<string>? devices = null, string? campaign = null,
        CancellationToken cancel = default)
    {
        var left = new LeftBehind();
        var names = wanted ?? All;
        List<TableDraft> drafts = [];
        if (names.Contains("settings")) drafts.Add(FleetCampaigns.Settings(register, left));
        if (names.Contains("limits")) drafts.Add(FleetCampaigns.Limits(register, left));
        if (names.Any(OfDevices.Contains))
        {
            var states = FleetDevices.Of(register, devices, left);
            if (names.Contains("devices")) drafts.Add(FleetDevices.Devices(states, left));
            if (names.Contains("results")) drafts.Add(FleetDevices.Results(states, left));
            if (names.Contains("inspections")) drafts.Add(FleetDevices.Inspections(states, left));
        }
        if (names.Any(OfCampaigns.Contains))
        {
            List<CampaignState> campaigns =
                [.. register.CampaignIds.Where(id => campaign is null || id == campaign).Select(id => register.Campaign(id)!)];
            if (names.Contains("campaigns")) drafts.Add(FleetCampaigns.Campaigns(campaigns, left));
            if (names.Contains("stations")) drafts.Add(FleetCampaigns.Stations(register, campaigns, left));
            if (names.Contains("kit")) drafts.Add(FleetCampaigns.Kit(register, campaigns, left));
        }
        if (wanted is null && devices is null && campaign is null) left.AddKinds(register);
        Try(drafts, register, today, left, cancel);
        var shown = drafts.Where(d => wanted is not null || d.Rows.Count > 0);
        return new([.. shown.Select(d => (d.Name, d.ToTable(provenance, left.InWords)))], left);
    }

    // Each file may come back by itself, so that those about devices are tried alone too; campaigns need devices and profiles.
    private static void Try(List<TableDraft> drafts, Register.Register register, DateOnly today, LeftBehind left, CancellationToken cancel)
    {
        var all = drafts.Select(d => d.Name).ToHashSet(StringComparer.Ordinal);
        var (needsDevices, silent) = (all.Contains("stations") || all.Contains("kit"), new LeftBehind());
        List<TableDraft> before = [];
        if ((needsDevices || all.Contains("campaigns")) && !all.Contains("limits")) before.Add(FleetCampaigns.Limits(register, silent));
        if (needsDevices && !all.Contains("devices"))
            before.Add(FleetDevices.Devices(FleetDevices.Of(register, null, silent), silent));
        if (needsDevices && !all.Contains("campaigns"))
            before.Add(FleetCampaigns.Campaigns([.. register.CampaignIds.Select(id => register.Campaign(id)!)], silent));
        foreach (var draft in drafts.Where(d => OfDevices.Contains(d.Name))) ImportTrial.Of([draft], today, left, cancel);
        ImportTrial.Of([.. before, .. drafts], today, left, cancel);
    }
}
