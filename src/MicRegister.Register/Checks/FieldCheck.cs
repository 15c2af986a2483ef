using MicRegister.Register.Facts;

namespace MicRegister.Register.Checks;

/// <summary>A check of a chain with a calibrator, as one device took part in it.</summary>
/// <param name="Day">The day.</param>
/// <param name="Campaign">Id of the campaign; empty at a bench.</param>
/// <param name="Station">The station; empty at a bench.</param>
/// <param name="DeviationDb">Chain sensitivity against its certificate, in dB.</param>
public sealed record FieldCheck(DateOnly Day, string Campaign, string Station, double DeviationDb)
{
    /// <summary>Where it was, in words.</summary>
    public string Where => Station.Length > 0 ? $"{Station} of {Campaign}" : "the bench";

    /// <summary>Checks that count and compare with certificates, oldest first.</summary>
    public static IReadOnlyList<FieldCheck> Of(Register register, string device)
    {
        var entries = register.EntriesOf(device);
        List<FieldCheck> checks = [.. CheckBook.OfDevice(register, device).Where(c => c.Check.DeviationDb is not null).Select(c => new FieldCheck(c.Day, c.Campaign ?? "", c.Check.Station ?? "", c.Check.DeviationDb!.Value))];
        foreach (var sequence in entries.SelectMany(e => register.Facts(Subject.Device(e))).Distinct())
        {
            if (!register.IsOfKind(sequence, "chain-checked") || !register.Counts(sequence) || register.Source.Read(sequence) is not { Body: ChainCheckedBriefly brief } fact) continue;
            checks.Add(new(fact.Occurred.Day, fact.Subjects.FirstOrDefault(Subject.IsCampaign) is { } subject ? Subject.Id(subject) : "", brief.Station, brief.DeviationDb));
        }
        return [.. checks.OrderBy(c => c.Day)];
    }
}
