using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Readiness;

/// <summary>
/// A chain at its station on a day, whether it is planned to stand there or known to have stood: all that the rules for both look at.
/// </summary>
/// <param name="Parts">The station with the devices, as they were known on that day.</param>
/// <param name="Campaign">What is wanted of it.</param>
/// <param name="Profile">The limits.</param>
/// <param name="NameOf">What people call a device of an id.</param>
internal sealed record StandingChain(PlannedChain Parts, CampaignPlanned Campaign, ProfileState Profile, Func<string, string> NameOf)
{
    /// <summary>Gap as it was measured when it was placed, in mm; null where the plate's inspection is what is known.</summary>
    public double? MeasuredGapMm { get; init; }

    /// <summary>Reads the response curves that its certificates name; by itself none is here.</summary>
    public CurveReader Read { get; init; } = _ => null;
}

/// <summary>A device of a chain, or of what it is checked with, and the days that it has to last for.</summary>
/// <param name="Device">The device, as it was known on the last of these days, or today.</param>
/// <param name="Profile">The limits; null where no profile says any.</param>
/// <param name="First">Day that intervals to the first day of a series are counted to.</param>
/// <param name="Last">Day that all others are counted to.</param>
internal sealed record StandingDevice(DeviceState Device, ProfileState? Profile, DateOnly First, DateOnly Last)
{
    /// <summary>What is usual where the profile says nothing; null takes the figures that come with the program.</summary>
    public ProfileState? Usual { get; init; }

    /// <summary>The device with all certificates that are known, those of later days included; null takes those that it has.</summary>
    public DeviceState? Later { get; init; }

    /// <summary>Lowest and highest frequency that results are used at, in Hz; null takes 50 Hz to 10 kHz.</summary>
    public (double FromHz, double ToHz)? Band { get; init; }

    /// <summary>Reads the curves of certificates; null reads none.</summary>
    public CurveShelf? Curves { get; init; }

    /// <summary>
    /// A device as it was on a day: what happened to it on later days is left out. What it is made of counts as it is known now, however
    /// late it was entered, so that this is not the device as the register knew it on that day.
    /// </summary>
    public static DeviceState On(DeviceState device, DateOnly day) => IsWhole(device, day) ? device.CertifiedBy(day) : device.CertifiedBy(day) with
    {
        Statuses = [.. device.Statuses.Where(s => s.Day <= day)],
        Places = [.. device.Places.Where(p => p.Day <= day)],
        Services = [.. device.Services.Where(s => s.Day <= day)],
        Inspections = [.. device.Inspections.Where(i => i.Day <= day)],
    };

    // Nothing but certificates came later: then nothing has to be made anew.
    private static bool IsWhole(DeviceState device, DateOnly day) =>
        device.Statuses.All(s => s.Day <= day) && device.Places.All(p => p.Day <= day)
        && device.Services.All(s => s.Day <= day) && device.Inspections.All(i => i.Day <= day);
}

/// <summary>What checks are made with, and under which pressure: as it goes along, or as one check says.</summary>
/// <param name="Devices">Calibrators, adapters, barometers and meters.</param>
/// <param name="PressureKPa">Static pressure there, in kPa; null where it is not known.</param>
/// <param name="PressureWords">What tells it, as the end of a sentence.</param>
/// <param name="IsPressureRead">Whether a barometer tells it.</param>
internal sealed record StandingKit(IReadOnlyList<DeviceState> Devices, double? PressureKPa, string PressureWords, bool IsPressureRead)
{
    public IEnumerable<DeviceState> Calibrators => Devices.Where(d => d.Kind == DeviceKind.Calibrator.Key);

    /// <summary>Whether a calibrator or an adapter among them fits a capsule; where nobody says what fits, any does.</summary>
    /// <param name="sizeMm">Diameter of the capsule, in mm.</param>
    public bool Fits(double sizeMm)
    {
        var fits = Devices.Where(d => d.Kind == DeviceKind.Calibrator.Key || d.Kind == DeviceKind.Adapter.Key)
            .Select(d => d.Number(DeviceField.FitsMm)).OfType<double>().ToList();
        return fits.Count == 0 || fits.Exists(f => !ChainRules.Differ(f, sizeMm));
    }
}

/// <summary>What a rule holds against a chain or a device.</summary>
/// <param name="Gravity">How grave it is: what stops makes a result not valid, what risks makes it doubtful.</param>
/// <param name="Device">The device that it is about; null where it is about the station.</param>
/// <param name="Clearing">What would clear it before the campaign.</param>
/// <param name="Text">What is the matter, in a sentence.</param>
/// <param name="Figures">The figures behind it.</param>
internal sealed record Fault(Gravity Gravity, DeviceState? Device, Clearing Clearing, string Text, params Figure[] Figures)
{
    /// <summary>The fact that it rests on, in words; null where that is what the register holds of the devices.</summary>
    public string? Basis { get; init; }

    /// <summary>Whether a trace says it too where it is a note, without weight: what is no plain yes.</summary>
    public bool IsSaid { get; init; }

    /// <summary>Day from which it matters; null for any day.</summary>
    public DateOnly? From { get; init; }
}
