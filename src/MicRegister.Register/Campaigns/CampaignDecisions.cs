using MicRegister.Metrology.Classes;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Campaigns;

/// <summary>What people at the desk say about campaigns and requirement profiles.</summary>
public static class CampaignDecisions
{
    private const int MostStations = 10_000;

    public static Result<IReadOnlyList<Fact>> Plan(Register register, Saying saying, string id, CampaignPlanned plan)
    {
        if (!IsId(id)) return Saying.Invalid($"Id '{id}': 1 to 60 letters, digits and dashes.");
        if (string.IsNullOrWhiteSpace(plan.Name)) return Saying.Invalid("Name is missing.");
        if (plan.LastDay < plan.FirstDay || plan.LastDay.DayNumber - plan.FirstDay.DayNumber > 400)
            return Saying.Invalid($"Last day '{plan.LastDay:yyyy-MM-dd}': allowed is from the first day on, at most 400 days.");
        if (!(plan.HighestHz > plan.LowestHz) || !(plan.LowestHz > 0))
            return Saying.Invalid(
                $"Band '{plan.LowestHz} to {plan.HighestHz} Hz': the upper end lies above the lower one, and both above 0.");
        if (!(plan.AltitudeM is >= -500 and <= 6000)) return Saying.Invalid($"Altitude '{plan.AltitudeM}': allowed is a number from -500 to 6000 m.");
        if (plan.FirstDay.Year is < 1950 or > 2200) return Saying.Invalid($"First day '{plan.FirstDay:yyyy-MM-dd}': allowed is from 1950 to 2200.");
        if (plan.PermittedLosses is < 0 or > MostStations)
            return Saying.Invalid($"Permitted losses '{plan.PermittedLosses}': allowed is a whole number from 0 to {MostStations}.");
        if (plan.SparesWanted is < 0 or > MostStations)
            return Saying.Invalid($"Spares wanted '{plan.SparesWanted}': allowed is a whole number from 0 to {MostStations}.");
        if (plan.TrackDeg is { } track && !(track is >= 0 and <= 360))
            return Saying.Invalid(FormattableString.Invariant($"Track '{track}': allowed is a number from 0 to 360 °."));
        if (ZoneOffsets.Wrong(plan.Offsets) is { } wrongOffset) return Saying.Invalid(wrongOffset);
        if (register.Profile(plan.Profile) is null)
            return Saying.Invalid($"Profile '{plan.Profile}': allowed are {string.Join(", ", register.ProfileIds)}.");
        return saying.Of(register, plan, Subject.Campaign(id));
    }

    public static Result<IReadOnlyList<Fact>> PlanStation(Register register, Saying saying, string id, StationPlanned station)
    {
        if (register.Campaign(id) is null) return Missing(id);
        if (station.Station is not { Length: > 0 and <= 60 }) return Saying.Invalid("A station's name has 1 to 60 characters.");
        if (!(Math.Abs(station.LatitudeDeg) <= 90) || !(Math.Abs(station.LongitudeDeg) <= 180))
            return Saying.Invalid($"Position '{station.LatitudeDeg}, {station.LongitudeDeg}': allowed are -90 to 90° and -180 to 180°.");
        if (station.HeightM is { } h && !(h is >= 0 and <= 50)) return Saying.Invalid($"Height '{h}': allowed is a number from 0 to 50 m.");
        return saying.Of(register, station, Subject.Campaign(id));
    }

    /// <summary>States how stations were surveyed: all of them or none.</summary>
    public static Result<IReadOnlyList<Fact>> Survey(Register register, Saying saying, string id, IReadOnlyList<StationSurveyed> surveys)
    {
        if (register.Campaign(id) is not { } campaign) return Missing(id);
        if (surveys.Count is 0 or > MostStations) return Saying.Invalid($"Surveys: 1 to {MostStations} are allowed, not {surveys.Count}.");
        foreach (var s in surveys)
        {
            if (!campaign.Stations.ContainsKey(s.Station ?? ""))
                return Saying.Invalid($"Station '{s.Station}': {campaign.Name} has no such station; plan it first.");
            if (WrongSurvey(s) is { } wrong) return Saying.Invalid($"Station {s.Station}: {wrong}");
        }
        if (surveys.GroupBy(s => s.Station, StringComparer.Ordinal).FirstOrDefault(g => g.Count() > 1) is { Key: var twice })
            return Saying.Invalid($"Station {twice} stands twice.");
        if (saying.Changed(register, Subject.Campaign(id)) is { } changed) return changed;
        return new Result<IReadOnlyList<Fact>>.Accepted(
            [.. surveys.Select(s => FactText.WriteDerived(saying.Stamp, s with { Method = s.Method.Trim() }, [Subject.Campaign(id)]))]);
    }

    /// <summary>What cannot be of a survey, with what is allowed; null where all can be.</summary>
    public static string? WrongSurvey(StationSurveyed s)
    {
        var figures = new (string Name, double? Value, double Least, double Greatest, string Unit)[]
        {
            ("Latitude", s.LatitudeDeg, -90, 90, "°"), ("Longitude", s.LongitudeDeg, -180, 180, "°"),
            ("Altitude", s.AltitudeM, -500, 6000, "m"), ("Height", s.HeightM, 0, 50, "m"),
            ("Horizontal uncertainty", s.HorizontalStandardM, 0, 1000, "m"), ("Vertical uncertainty", s.VerticalStandardM, 0, 1000, "m"),
        };
        foreach (var (name, value, least, greatest, unit) in figures)
        {
            if (value is { } v && !(v >= least && v <= greatest))
                return FormattableString.Invariant($"{name} '{v}': allowed is a number from {least} to {greatest} {unit}.");
        }
        if (s.HorizontalStandardM == 0) return "Horizontal uncertainty '0': no place is exact; allowed is a number above 0 m.";
        if ((s.AltitudeM is not null || s.HeightM is not null) && s.VerticalStandardM is not > 0)
            return "Vertical uncertainty is missing: an altitude or height was measured; allowed is a number above 0 m.";
        return string.IsNullOrWhiteSpace(s.Method) || s.Method.Length > 200 ? "Method is missing, or longer than 200 characters." : null;
    }

    /// <summary>Takes a station out of the plan: all that was said of its place and its chain is annulled.</summary>
    public static Result<IReadOnlyList<Fact>> DropStation(Register register, Saying saying, string id, string station, string reason)
    {
        if (register.Campaign(id) is not { } campaign) return Missing(id);
        if (!campaign.Stations.ContainsKey(station)) return new Rejection(RejectionSort.NotFound, $"{campaign.Name} has no station {station}.");
        if (DeviceDecisions.Text(reason, "Reason") is { } wrong) return wrong;
        if (saying.Changed(register, Subject.Campaign(id)) is { } changed) return changed;
        return new Result<IReadOnlyList<Fact>>.Accepted([.. register.Facts(Subject.Campaign(id)).Where(register.Counts).Select(register.Source.Read)
            .Where(f => f.Body switch
            {
                StationPlanned s => s.Station == station,
                StationSurveyed s => s.Station == station,
                ChainPlanned c => c.Station == station,
                _ => false,
            })
            .Select(f => FactText.WriteDerived(saying.Stamp, new FactAnnulled(f.Id.ToString(), reason), f.Subjects))]);
    }

    public static Result<IReadOnlyList<Fact>> PlanChain(Register register, Saying saying, string id, string station, IReadOnlyList<string> devices)
    {
        if (register.Campaign(id) is not { } campaign) return Missing(id);
        if (!campaign.Stations.ContainsKey(station)) return new Rejection(RejectionSort.NotFound, $"{campaign.Name} has no station {station}.");
        if (devices.FirstOrDefault(d => register.Device(d) is null) is { } missing) return DeviceDecisions.Missing(missing);
        return saying.Of(register, new ChainPlanned(station, devices), [Subject.Campaign(id), .. devices.Select(Subject.Device)]);
    }

    /// <summary>Puts a device in the place of the one of its kind at a station, and takes it off the list of spares.</summary>
    public static Result<IReadOnlyList<Fact>> SwapIn(Register register, Saying saying, string id, string station, string device)
    {
        if (register.Campaign(id) is not { } campaign) return Missing(id);
        if (!campaign.Stations.ContainsKey(station)) return new Rejection(RejectionSort.NotFound, $"{campaign.Name} has no station {station}.");
        if (register.Device(device) is not { } spare) return DeviceDecisions.Missing(device);
        List<string> chain = [.. campaign.Chains.GetValueOrDefault(station, []).Where(d => register.Device(d)?.Kind != spare.Kind), spare.Id];
        var planned = saying.Of(register, new ChainPlanned(station, chain), [Subject.Campaign(id), .. chain.Select(Subject.Device)]);
        var spares = campaign.KitOf(KitPurpose.Spare);
        if (planned is not Result<IReadOnlyList<Fact>>.Accepted accepted || !spares.Contains(device)) return planned;
        List<string> left = [.. spares.Where(s => s != device)];
        var kit = FactText.WriteDerived(saying.Stamp, new KitPlanned(KitPurpose.Spare, left), [Subject.Campaign(id), .. left.Select(Subject.Device)]);
        return new Result<IReadOnlyList<Fact>>.Accepted([.. accepted.Value, kit]);
    }

    public static Result<IReadOnlyList<Fact>> PlanKit(Register register, Saying saying, string id, KitPurpose purpose, IReadOnlyList<string> devices)
    {
        if (register.Campaign(id) is null) return Missing(id);
        if (devices.FirstOrDefault(d => register.Device(d) is null) is { } missing) return DeviceDecisions.Missing(missing);
        return saying.Of(register, new KitPlanned(purpose, devices), [Subject.Campaign(id), .. devices.Select(Subject.Device)]);
    }

    public static Result<IReadOnlyList<Fact>> Write(Register register, Saying saying, string id, ProfileWritten profile)
    {
        if (!IsId(id)) return Saying.Invalid($"Id '{id}': 1 to 60 letters, digits and dashes.");
        if (string.IsNullOrWhiteSpace(profile.Name)) return Saying.Invalid("Name is missing.");
        foreach (var limit in profile.Limits)
        {
            if (LimitKey.Find(limit.Key) is not { } key) return Saying.Invalid($"Limit '{limit.Key}' is not known.");
            if (limit.Value is null && string.IsNullOrWhiteSpace(limit.Text))
                return Saying.Invalid($"{key.Label}: neither a number nor words are given.");
            if (limit.Value is { } v && !(v >= key.Least && v <= key.Greatest))
                return Saying.Invalid($"{key.Label} '{v}': "
                    + $"allowed is a number from {key.Least} to {key.Greatest}{(key.Unit.Length > 0 ? " " + key.Unit : "")}.");
            if (limit.Key == LimitKey.DecisionRule && !Metrology.Conformity.DecisionRule.Names.Contains(limit.Text))
                return Saying.Invalid(
                    $"Decision rule '{limit.Text}': allowed are {string.Join(", ", Metrology.Conformity.DecisionRule.Names)}.");
            if (limit.Key == LimitKey.CheckTestDay && limit.Text != LimitKey.SiteDay)
                return Saying.Invalid($"Checks of a test day '{limit.Text}': allowed is {LimitKey.SiteDay}.");
            if (CertificateLimits.Wrong(limit) is { } wrong) return Saying.Invalid($"{key.Label} {wrong}");
            if (LimitKey.UnknownTable(limit.Key, limit.Text) is { } unknown)
                return Saying.Invalid($"{key.Label}: '{unknown}': allowed are {string.Join(", ", LimitKey.TablesOf(limit.Key)!)}.");
            if (limit.Key == LimitKey.CheckAir
                && ProfileState.WordsOf(limit).FirstOrDefault(w => !LimitKey.AirWords.Contains(w)) is { } air)
                return Saying.Invalid($"{key.Label} '{air}': allowed are {string.Join(", ", LimitKey.AirWords)}.");
            if (limit.Key == LimitKey.ResponseTypes
                && ProfileState.WordsOf(limit).FirstOrDefault(w => !DeviceField.ResponseType.Choices!.Contains(w)) is { } type)
                return Saying.Invalid($"{key.Label} '{type}': allowed are {string.Join(", ", DeviceField.ResponseType.Choices!)}.");
            if (LimitKey.SortOf(limit.Key) is { } sort)
            {
                if (limit.Value is not null) return Saying.Invalid($"{key.Label} '{limit.Value}': allowed is a class with its edition.");
                if (LeastClass.Read(sort, limit.Text!, out var unclear) is null) return Saying.Invalid($"{key.Label}: {unclear}.");
            }
            if (string.IsNullOrWhiteSpace(limit.Source))
                return Saying.Invalid($"{key.Label}: its source is missing; write 'common practice, no source' where there is none.");
        }
        if (profile.Limits.GroupBy(l => l.Key).FirstOrDefault(g => g.Count() > 1) is { } twice)
            return Saying.Invalid($"Limit '{twice.Key}' stands twice.");
        return saying.Of(register, profile, Subject.Profile(id));
    }

    /// <summary>States that a person compared a profile, as it stands now, with the current text of its source.</summary>
    /// <param name="said">What was compared; with a digest, only where the profile still asks that.</param>
    public static Result<IReadOnlyList<Fact>> Confirm(Register register, Saying saying, string id, ProfileConfirmed said)
    {
        if (register.Profile(id) is not { } profile) return new Rejection(RejectionSort.NotFound, $"There is no profile {id}.");
        if (DeviceDecisions.Text(said.Edition, "Edition") is { } wrong) return wrong;
        var today = saying.Stamp.Occurred.Day;
        if (said.EditionDay is { } day && (day.Year < 1800 || day > today))
            return Saying.Invalid($"Day of the text '{day:yyyy-MM-dd}': allowed is a day from 1800 to {today:yyyy-MM-dd}.");
        var digest = ProfileEdition.DigestOf(profile.Written);
        if (said.Digest is { } saw && saw != digest)
            return new Rejection(RejectionSort.Conflict, $"The profile {id} was changed meanwhile: compare it as it stands now.");
        return saying.Of(register, said with { Digest = digest }, Subject.Profile(id));
    }

    private static bool IsId(string id) => id.Length is > 0 and <= 60 && id.All(c => char.IsAsciiLetterOrDigit(c) || c == '-');

    private static Rejection Missing(string id) => new(RejectionSort.NotFound, $"There is no campaign {id}.");
}
