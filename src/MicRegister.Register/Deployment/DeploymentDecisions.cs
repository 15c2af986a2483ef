using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Deployment;

/// <summary>What people at the desk say of a campaign in the field.</summary>
public static class DeploymentDecisions
{
    /// <summary>Most readings of one file of a weather logger.</summary>
    public const int MostReadings = 100_000;

    // So many stay well under the greatest size of a fact.
    private const int MostOfFact = 2880;

    /// <summary>States that a chain was placed at a planned station, as phones state it.</summary>
    public static Result<IReadOnlyList<Fact>> Place(Register register, Saying saying, string campaign, ChainPlaced placed)
    {
        string[] gone = placed.Swap is { } swap ? [swap.Out] : [];
        if (WrongStep(register, campaign, placed.Station, [.. placed.Devices, .. gone]) is { } wrong) return wrong;
        if (placed.Devices.Count == 0) return Saying.Invalid($"Station {placed.Station}: no device was placed.");
        return saying.Of(register, placed,
        [
            Subject.Campaign(campaign), .. placed.Devices.Select(Subject.Device), .. gone.Select(Subject.Device),
            .. placed.UnknownLabels.Select(Subject.Label),
        ]);
    }

    /// <summary>States that a chain was taken in from its station, as phones state it.</summary>
    public static Result<IReadOnlyList<Fact>> TakeIn(Register register, Saying saying, string campaign, ChainTakenIn taken) =>
        WrongStep(register, campaign, taken.Station, [.. taken.Devices, .. taken.Missing]) is { } wrong
            ? wrong
            : saying.Of(register, taken, [Subject.Campaign(campaign), .. taken.Devices.Concat(taken.Missing).Select(Subject.Device)]);

    private static Rejection? WrongStep(Register register, string campaign, string station, IReadOnlyList<string> devices)
    {
        if (register.Campaign(campaign) is not { } planned)
            return new Rejection(RejectionSort.NotFound, $"There is no campaign {campaign}.");
        if (!planned.Stations.ContainsKey(station))
            return Saying.Invalid($"Station '{station}': {planned.Name} has no such station; plan it first.");
        if (devices.FirstOrDefault(d => register.Device(d) is null) is { } missing) return DeviceDecisions.Missing(missing);
        return devices.GroupBy(d => d, StringComparer.Ordinal).FirstOrDefault(g => g.Count() > 1) is { } twice
            ? Saying.Invalid($"Station {station}: {register.Device(twice.Key)!.Name} is named twice.")
            : null;
    }

    /// <summary>Notes the weather at the site.</summary>
    public static Result<IReadOnlyList<Fact>> NoteWeather(Register register, Saying saying, string campaign, WeatherNoted weather)
    {
        if (register.Campaign(campaign) is null) return new Rejection(RejectionSort.NotFound, $"There is no campaign {campaign}.");
        return Wrong(weather) is { } wrong ? Saying.Invalid(wrong) : saying.Of(register, weather, Subject.Campaign(campaign));
    }

    /// <summary>Takes over what a weather logger read: all of it or nothing.</summary>
    /// <param name="register">The newest state.</param>
    /// <param name="saying">Who says it.</param>
    /// <param name="campaign">Id of the campaign.</param>
    /// <param name="file">The file, with readings of any number of days in the order of time.</param>
    /// <returns>One fact for each local day, of a long day several.</returns>
    public static Result<IReadOnlyList<Fact>> LogWeather(Register register, Saying saying, string campaign, WeatherLogged file)
    {
        if (register.Campaign(campaign) is not { } planned) return new Rejection(RejectionSort.NotFound, $"There is no campaign {campaign}.");
        if (file.Readings.Count is 0 or > MostReadings)
            return Saying.Invalid($"Readings of {file.File}: 1 to {MostReadings} are allowed, not {file.Readings.Count}; average them over a minute.");
        var before = long.MinValue;
        var readings = new List<(long Ms, LoggedWeather Reading)>();
        foreach (var reading in file.Readings)
        {
            if (!Occurred.TryParse(reading.At, out var at) || !at.IsInstant)
                return Saying.Invalid($"Reading at '{reading.At}': allowed is an instant in UTC such as 2026-05-04T10:11:12.000Z.");
            if (at.UnixMilliseconds <= before) return Saying.Invalid($"Reading at '{reading.At}': each comes after the one before it.");
            before = at.UnixMilliseconds;
            if (Wrong(new(reading.WindFromDeg, reading.WindMs, reading.TemperatureC, reading.HumidityPercent, reading.PressureKPa), reading.GustMs)
                is { } wrong)
            {
                return Saying.Invalid($"Reading at {reading.At}: {wrong}");
            }
            readings.Add((before, reading));
        }
        if (WeatherLog.Files(register, campaign).Contains(file.Sha256))
            return new Rejection(RejectionSort.Conflict, $"{file.File} was taken over already; annul its facts to take it anew.");
        var offsets = planned.Plan?.Offsets ?? register.OffsetsOf(campaign);
        return new Result<IReadOnlyList<Fact>>.Accepted([.. readings.GroupBy(r => ZoneOffsets.LocalDay(r.Ms, offsets))
            .SelectMany(day => day.Chunk(MostOfFact)).Select(part => FactText.WriteDerived(
                saying.Stamp with { Occurred = Occurred.At(DateTimeOffset.FromUnixTimeMilliseconds(part[0].Ms)) },
                file with { Readings = [.. part.Select(r => r.Reading)] }, [Subject.Campaign(campaign)]))]);
    }

    /// <summary>What cannot be of figures of the weather, with what is allowed; null where all can be.</summary>
    /// <param name="weather">The figures.</param>
    /// <param name="gustMs">Greatest speed of the wind, in m/s; null where it was not read.</param>
    public static string? Wrong(WeatherNoted weather, double? gustMs = null)
    {
        var figures = new (string Name, double? Value, double Least, double Greatest, string Unit)[]
        {
            ("Wind from", weather.WindFromDeg, 0, 360, "°"), ("Wind", weather.WindMs, 0, 100, "m/s"), ("Gust", gustMs, 0, 150, "m/s"),
            ("Temperature", weather.TemperatureC, -50, 70, "°C"), ("Humidity", weather.HumidityPercent, 0, 100, "%"),
            ("Static pressure", weather.PressureKPa, 30, 120, "kPa"),
        };
        if (figures.All(f => f.Value is null)) return "Nothing was noted: fill in at least one figure.";
        foreach (var (name, value, least, greatest, unit) in figures)
        {
            if (value is { } v && !(v >= least && v <= greatest))
                return FormattableString.Invariant($"{name} '{v}': allowed is a number from {least} to {greatest} {unit}.");
        }
        return null;
    }
}
