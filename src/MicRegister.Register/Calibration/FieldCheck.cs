using MicRegister.Register.Campaigns;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Calibration;

/// <summary>A check of a chain with a calibrator, as one device took part in it.</summary>
/// <param name="Day">The day.</param>
/// <param name="Campaign">Id of the campaign.</param>
/// <param name="Station">The station.</param>
/// <param name="DeviationDb">Chain sensitivity against its certificate, in dB.</param>
public sealed record FieldCheck(DateOnly Day, string Campaign, string Station, double DeviationDb)
{
    /// <summary>Checks that count, oldest first.</summary>
    public static IReadOnlyList<FieldCheck> Of(Register register, string device) =>
        [.. register.EntriesOf(device).SelectMany(e => register.Facts(Subject.Device(e))).Distinct().Where(register.Counts).Select(register.Source.Read).Where(f => f.Body is ChainChecked)
            .Select(f => (Fact: f, Check: (ChainChecked)f.Body)).Select(f => new FieldCheck(f.Fact.Occurred.Day, Subject.Id(f.Fact.Subjects[0]), f.Check.Station, f.Check.DeviationDb)).OrderBy(c => c.Day)];
}
