using MicRegister.Documents.Import;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Register.Settings;

namespace MicRegister.Documents.Exports;

/// <summary>Campaigns, stations with their chains, what goes along, limits of own profiles and settings as tables that come back.</summary>
internal static class FleetCampaigns
{
    public static TableDraft Campaigns(IReadOnlyList<CampaignState> campaigns, LeftBehind left)
    {
        var draft = new TableDraft("campaigns", "Campaigns", left).Has(Column.FirstDay, always: true).Has(Column.LastDay, always: true)
            .Has(Column.Campaign, always: true).Has(Column.CampaignId, always: true).Has(Column.Zone, always: true)
            .Has(Column.Offset, always: true).Has(Column.Site).Numbers("m", Column.Altitude).Has(Column.Source, always: true)
            .Numbers("Hz", Column.BandFrom, Column.BandTo).Numbers("dB", Column.QuietDb, Column.LoudDb).Has(Column.Profile, always: true)
            .Has(Column.Losses, ExportType.Number).Has(Column.SparesWanted, ExportType.Number).Numbers("°", Column.Track);
        foreach (var campaign in campaigns)
        {
            if (campaign.Plan is not { } plan)
            {
                left.Add("campaigns without a plan");
                continue;
            }
            draft.Row("campaign " + plan.Name).Day(Column.FirstDay, plan.FirstDay).Day(Column.LastDay, plan.LastDay)
                .Text(Column.Campaign, plan.Name).Text(Column.CampaignId, campaign.Id).Text(Column.Zone, plan.Zone)
                .Text(Column.Offset, Offsets(plan.Offsets)).Text(Column.Site, plan.Site).Number(Column.Altitude, plan.AltitudeM)
                .Text(Column.Source, Source(plan.Source)).Hertz(Column.BandFrom, plan.LowestHz, 0.1, 200_000)
                .Hertz(Column.BandTo, plan.HighestHz, 1, 200_000).Number(Column.QuietDb, plan.LowestLevelDb, -20, 200)
                .Number(Column.LoudDb, plan.HighestLevelDb, 0, 200).Text(Column.Profile, plan.Profile)
                .Number(Column.Losses, plan.PermittedLosses).Number(Column.SparesWanted, plan.SparesWanted)
                .Number(Column.Track, plan.TrackDeg);
        }
        draft.Sort([Column.FirstDay, Column.LastDay, Column.CampaignId], "campaigns that say the same twice");
        return draft;
    }

    public static TableDraft Stations(Register.Register register, IReadOnlyList<CampaignState> campaigns, LeftBehind left)
    {
        var draft = new TableDraft("stations", "Stations with their chains", left).Has(Column.Mount, always: true)
            .Has(Column.Campaign, always: true).Has(Column.CampaignId, always: true).Has(Column.Station, always: true)
            .Numbers("°", Column.Latitude, Column.Longitude).Numbers("m", Column.Height);
        foreach (var (column, _) in Column.Parts) draft.Has(column);
        draft.Has(Column.StationOthers);
        var names = new ChainNames(register);
        foreach (var campaign in campaigns.Where(c => c.Plan is not null))
        {
            foreach (var station in campaign.Stations.Values)
            {
                var row = draft.Row($"station {station.Station} of {campaign.Name}")
                    .Text(Column.Mount, StationCells.MountWord(station.Mount))
                    .Text(Column.Campaign, campaign.Name).Text(Column.CampaignId, campaign.Id).Text(Column.Station, station.Station)
                    .Number(Column.Latitude, station.LatitudeDeg, -90, 90).Number(Column.Longitude, station.LongitudeDeg, -180, 180)
                    .Number(Column.Height, station.HeightM, 0, 50);
                names.Write(row, campaign.Chains.GetValueOrDefault(station.Station, []), left);
            }
            left.Add("chains of stations without a place", campaign.Chains.Keys.Count(s => !campaign.Stations.ContainsKey(s)));
        }
        draft.Sort([Column.CampaignId, Column.Station], "stations that say the same twice");
        return draft;
    }

    /// <summary>What goes along, in the order of the lists.</summary>
    public static TableDraft Kit(Register.Register register, IReadOnlyList<CampaignState> campaigns, LeftBehind left)
    {
        var draft = new TableDraft("kit", "What goes along", left).Has(Column.Purpose, always: true).Has(Column.Campaign, always: true)
            .Has(Column.CampaignId, always: true).Has(Column.Kind, always: true).Has(Column.Serial, always: true)
            .Has(Column.DeviceId, always: true);
        foreach (var campaign in campaigns.Where(c => c.Plan is not null))
        {
            foreach (var (purpose, devices) in campaign.Kit)
            {
                foreach (var id in devices.Select(d => register.EntriesOf(d)[0]).Distinct(StringComparer.Ordinal))
                {
                    if (register.Device(id) is not { } device || DeviceKind.Find(device.Kind) is null)
                    {
                        left.Add("devices in kit that nobody registered");
                        continue;
                    }
                    draft.Row($"{device.Name} in the kit of {campaign.Name}")
                        .Text(Column.Purpose, purpose == KitPurpose.Spare ? "spare" : "check").Text(Column.Campaign, campaign.Name)
                        .Text(Column.CampaignId, campaign.Id).Text(Column.Kind, device.Kind).Text(Column.Serial, device.Serial)
                        .Text(Column.DeviceId, device.Id);
                }
            }
        }
        return draft;
    }

    /// <summary>Limits of profiles that somebody wrote; the word none takes out a built-in limit that one does not hold.</summary>
    public static TableDraft Limits(Register.Register register, LeftBehind left)
    {
        var draft = new TableDraft("limits", "Limits of own requirement profiles", left).Has(Column.Limit, always: true)
            .Has(Column.Profile, always: true).Has(Column.ProfileName).Has(Column.Statement)
            .Has(Column.Value, ExportType.Number, always: true)
            .Has(Column.LimitText, always: true).Has(Column.Source, always: true).Has(Column.Certainty).Has(Column.LimitDocument)
            .Has(Column.LimitEdition).Has(Column.LimitClause);
        foreach (var profile in register.ProfileIds.Select(id => register.Profile(id)).OfType<ProfileState>().Where(p => !p.IsBuiltIn))
        {
            var (written, builtIn) = (profile.Written, BuiltInProfiles.Find(profile.Id));
            if (written.Limits.Count == 0) left.Add("profiles without a limit");
            foreach (var limit in written.Limits) Limit(Begin(limit.Key), limit);
            foreach (var limit in builtIn?.Written.Limits.Where(l => profile.Limit(l.Key) is null) ?? [])
                Begin(limit.Key).Text(Column.LimitText, "none").Text(Column.Source, limit.Source);
            left.Add(
                "earlier editions of profiles",
                register.ProfileEditions(profile.Id).Count(e => !e.IsInForce && e.Key != ProfileEdition.BuiltIn));

            DraftRow Begin(string key) => draft.Row($"limit {key} of {profile.Id}").Text(Column.Limit, key).Text(Column.Profile, profile.Id)
                .Text(Column.ProfileName, written.Name).Text(Column.Statement, written.Statement);
        }
        draft.Sort([Column.Profile, Column.Limit], "limits that say the same twice");
        return draft;
    }

    public static TableDraft Settings(Register.Register register, LeftBehind left)
    {
        var draft = new TableDraft("settings", "Settings of the register", left).Has(Column.Setting, always: true)
            .Has(Column.Value, ExportType.Number, "days", always: true);
        var settings = register.State.Settings;
        foreach (var (key, days) in new[]
        {
            ("laboratory-days", settings.LaboratoryDays), ("shipping-days", settings.ShippingDays), ("swap-days", settings.SwapDays),
            ("inspection-days", settings.InspectionDays),
        }) draft.Row("setting " + key).Text(Column.Setting, key).Number(Column.Value, days, 0, 365);
        return draft;
    }

    private static void Limit(DraftRow row, ProfileLimit limit)
    {
        if (LimitKey.Find(limit.Key)?.Unit == "Hz") row.Hertz(Column.Value, limit.Value, 0, 1e9);
        else row.Number(Column.Value, limit.Value);
        row.Text(Column.LimitText, limit.Text).Text(Column.Source, limit.Source).Text(Column.Certainty, limit.Certainty)
            .Text(Column.LimitDocument, limit.Document).Text(Column.LimitEdition, limit.Edition).Text(Column.LimitClause, limit.Clause);
    }

    private static string Offsets(IReadOnlyList<ZoneOffset> offsets) => offsets.Count == 0
        ? CampaignRows.Utc
        : string.Join(' ', offsets.Select(o => FormattableString.Invariant($"{o.FromUtc}={o.Minutes}")));

    private static string Source(SourceClass source) => source switch
    {
        SourceClass.Jet => "jet",
        SourceClass.Propeller => "propeller",
        SourceClass.SmallMultirotor => "small multirotor",
        _ => "other",
    };
}
