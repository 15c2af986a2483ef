using MicRegister.Documents.Import;
using MicRegister.Register;
using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Server.Api;

namespace MicRegister.Server.Pages.Checks;

/// <summary>A round of checks as it is being entered: what it is made with, and a line for each chain.</summary>
public sealed class CheckSheet
{
    /// <summary>Lines, in the order of stations.</summary>
    public List<CheckLine> Lines { get; } = [];

    public CheckMoment Moment { get; set; } = CheckMoment.Before;

    public CheckMethod Method { get; set; } = CheckMethod.Recording;

    public string? Calibrator { get; set; }

    public string? Adapter { get; set; }

    /// <summary>Id of the barometer that was read; null where nobody says.</summary>
    public string? Barometer { get; set; }

    /// <summary>Id of what the reading was taken with; null where nobody says.</summary>
    public string? Meter { get; set; }

    public DateOnly? Day { get; set; }

    public string? Pressure { get; set; }

    public string? Temperature { get; set; }

    public string? Humidity { get; set; }

    public bool Estimate { get; set; }

    public string? Range { get; set; }

    /// <summary>Nominal level, where the calibrator gives several.</summary>
    public string? Nominal { get; set; }

    public string? Resolution { get; set; }

    /// <summary>What is wrong with what they are made with; null where nothing is.</summary>
    public string? Problem { get; private set; }

    /// <summary>The calibrator's level at the place on the first chain, term by term; empty where it cannot be worked out.</summary>
    public IReadOnlyList<CheckTerm> LevelTerms { get; private set; } = [];

    /// <summary>What all chains have in common; null where there are too few.</summary>
    public double? CommonDb { get; private set; }

    /// <summary>Lines that can be stored.</summary>
    public IEnumerable<CheckLine> Good => Lines.Where(l => l.Check is not null);

    /// <summary>Takes the stations of a campaign; what was typed stays with its station.</summary>
    public void Follow(Register.Register register, CampaignState campaign)
    {
        var typed = Lines.Where(l => l.Station is not null).ToDictionary(l => l.Station!);
        Lines.Clear();
        foreach (var station in campaign.Stations.Keys)
        {
            var line = typed.GetValueOrDefault(station) ?? new CheckLine { Station = station };
            List<string> planned = [.. campaign.Chains.GetValueOrDefault(station, [])];
            // A reading is of the devices that stood there when it was taken: another plan does not make it one of others.
            line.Planned = line.HoldsSomething && !line.Devices.SequenceEqual(planned) && line.Devices.Count > 0
                ? Names(register, planned)
                : null;
            if (line.Planned is null) line.Devices = planned;
            line.Name = Names(register, line.Devices);
            Lines.Add(line);
        }
        // What was typed for a station that was taken out of the plan is still there.
        Lines.AddRange(typed.Values.Where(l => l.HoldsSomething && !campaign.Stations.ContainsKey(l.Station!)));
    }

    private static string Names(Register.Register register, IEnumerable<string> devices) =>
        string.Join(", ", devices.Select(id => register.Device(id)?.Serial ?? id));

    /// <summary>Works out all lines on a state of the register.</summary>
    public void Work(Register.Register register, string? campaign, IReadOnlyList<CheckRecord> known, Occurred now)
    {
        (Problem, CommonDb, LevelTerms) = (null, null, []);
        foreach (var line in Lines) (line.Check, line.View, line.Problem) = (null, null, null);
        if (Conditions(campaign) is not { } conditions) return;
        var tried = new List<(CheckEntry Entry, ChainChecked Check)>();
        var lines = new Dictionary<ChainChecked, CheckLine>(ReferenceEqualityComparer.Instance);
        foreach (var line in Lines.Where(l => !string.IsNullOrWhiteSpace(l.Readings) || l.Tone is not null))
        {
            if (Entry(conditions, line) is not { } entry) continue;
            if (CheckWork.Out(register, entry) is Result<ChainChecked>.Accepted { Value: var check })
            {
                (line.Check, line.Entry) = (check, entry);
                lines[check] = line;
                tried.Add((entry, check));
            }
            else
            {
                line.Problem = ((Result<ChainChecked>.Rejected)CheckWork.Out(register, entry)).Why.Text;
            }
        }
        if (tried.Count == 0)
        {
            Try(register, conditions);
            return;
        }
        LevelTerms = tried[0].Check.CalibratorTerms;
        var (days, profile) = CheckView.Tried(register, campaign, tried, now, known);
        foreach (var day in days)
        {
            CommonDb ??= day.Shift?.CommonDb;
            foreach (var judged in day.Checks)
            {
                if (lines.TryGetValue(judged.Record.Check, out var line)) line.View = CheckView.Of(register, judged, day, profile);
            }
        }
    }

    /// <summary>Gives the channels of recordings to the lines that they stand for.</summary>
    public void Take(IReadOnlyList<ToneRow> rows)
    {
        foreach (var line in Lines) line.Tone = null;
        foreach (var row in rows.Where(r => r.Station is not null))
        {
            if (Lines.FirstOrDefault(l => l.Station == row.Station) is { } line) line.Tone = row;
        }
    }

    // With no reading yet, the level alone is shown, on the first chain that there is.
    private void Try(Register.Register register, CheckEntry conditions)
    {
        if (Lines.FirstOrDefault(l => l.Devices.Count > 0) is not { } first) return;
        var entry = conditions with
        {
            Station = first.Station,
            Devices = first.Devices,
            Readings = [Method == CheckMethod.Indicated ? 94 : 0.1],
        };
        if (CheckWork.Out(register, entry) is Result<ChainChecked>.Accepted { Value: var check }) LevelTerms = check.CalibratorTerms;
        else Problem = ((Result<ChainChecked>.Rejected)CheckWork.Out(register, entry)).Why.Text;
    }

    private CheckEntry? Conditions(string? campaign)
    {
        if (Calibrator is null)
        {
            Problem = "Choose the calibrator.";
            return null;
        }
        if (!Read(Pressure, "Static pressure", "kPa", out var pressure)
            || !Read(Temperature, "Temperature", "°C", out var temperature)
            || !Read(Humidity, "Humidity", "%", out var humidity)
            || !Read(Nominal, "Nominal level", "dB", out var nominal)
            || !Read(Range, "Range", "V", out var range)
            || !Read(Resolution, "Last step", CheckWork.Unit(Method), out var resolution))
        {
            return null;
        }
        return new()
        {
            Campaign = campaign,
            At = Day?.ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture),
            Moment = Moment,
            Method = Method,
            Calibrator = Calibrator,
            Adapter = Adapter,
            Barometer = Estimate ? null : Barometer,
            Meter = Method == CheckMethod.Recording ? null : Meter,
            Air = pressure is null && temperature is null && humidity is null ? null : new StatedAir(pressure, temperature, humidity),
            EstimatePressure = Estimate,
            NominalDb = nominal,
            RangeV = Method == CheckMethod.Recording ? range : null,
            Resolution = Method == CheckMethod.Recording ? null : resolution,
            Readings = [],
        };
    }

    private CheckEntry? Entry(CheckEntry conditions, CheckLine line)
    {
        var entry = conditions with { Station = line.Station, Devices = line.Devices.Count > 0 ? line.Devices : null };
        if (Method == CheckMethod.Recording && line.Tone is { } row)
        {
            if (row.Tone is null)
            {
                line.Problem = string.Join("; ", row.Channel.Reasons);
                return null;
            }
            return ToneBatch.Entries([row with { Station = line.Station ?? "" }], entry) is [var one]
                ? one with { Station = line.Station }
                : null;
        }
        var readings = new List<double>();
        string Asked(string? typed) => Method switch { CheckMethod.Voltage => "V", CheckMethod.Indicated => "dB", _ => typed ?? "" };
        // Blanks part several insertions; a comma is a decimal mark.
        foreach (var text in (line.Readings ?? "").Split([' ', ';', '\t'], StringSplitOptions.RemoveEmptyEntries))
        {
            var isMilli = text.EndsWith("mV", StringComparison.OrdinalIgnoreCase);
            if (!MeasuredText.TryRead(isMilli ? text[..^2] : text, out var number, out var unit)
                || MeasuredText.Convert(number, unit, Asked(unit)) is not { } value)
            {
                line.Problem = $"Reading '{text}': it is no number{(Method == CheckMethod.Voltage ? " in V or mV" : "")}.";
                return null;
            }
            readings.Add(isMilli ? value / 1000 : value);
        }
        return readings.Count == 0 ? null : entry with { Readings = readings };
    }

    private bool Read(string? text, string name, string unit, out double? value)
    {
        value = null;
        if (string.IsNullOrWhiteSpace(text)) return true;
        if (MeasuredText.TryRead(text, out var number, out var stated)
            && (stated is null ? number : MeasuredText.Convert(number, stated, unit)) is { } converted)
        {
            value = converted;
            return true;
        }
        Problem = $"{name} '{text}': allowed is a number in {unit}.";
        return false;
    }
}

/// <summary>One chain of a round of checks.</summary>
public sealed class CheckLine
{
    /// <summary>The station; null at a bench.</summary>
    public string? Station { get; set; }

    /// <summary>Ids of its devices.</summary>
    public List<string> Devices { get; set; } = [];

    /// <summary>Serial numbers of its devices.</summary>
    public string Name { get; set; } = "";

    /// <summary>What is planned by now, where that is no longer what the reading is of; null otherwise.</summary>
    public string? Planned { get; set; }

    public bool HoldsSomething => !string.IsNullOrWhiteSpace(Readings) || Tone is not null;

    /// <summary>What was typed: one reading, or several insertions with blanks between.</summary>
    public string? Readings { get; set; }

    /// <summary>The channel of a recording that stands for it.</summary>
    public ToneRow? Tone { get; set; }

    public CheckEntry? Entry { get; set; }

    public ChainChecked? Check { get; set; }

    public CheckView? View { get; set; }

    /// <summary>Why it cannot be stored; null where it can, or nothing was typed.</summary>
    public string? Problem { get; set; }
}
