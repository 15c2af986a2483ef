using MicRegister.Metrology.GroundPlane;
using MicRegister.Metrology.Quantities;
using MicRegister.Register.Campaigns;

namespace MicRegister.Register.Mounting;

/// <summary>How what the model says of a mount stands to what practice says.</summary>
public enum MountAgreement
{
    /// <summary>The model keeps the level over the band, and practice takes the mount.</summary>
    BothServe,

    /// <summary>The model does not, and practice does not take it.</summary>
    NeitherServes,

    /// <summary>The model does, practice does not take it.</summary>
    ModelAlone,

    /// <summary>The model does not, practice takes it all the same.</summary>
    PracticeAlone,

    /// <summary>Practice has no word on the source: the model answers alone.</summary>
    PracticeSilent,
}

/// <summary>Holds the model and practice against each other, and says why they part.</summary>
public static class MountAgainstPractice
{
    /// <summary>How both stand to each other.</summary>
    /// <param name="modelHolds">Whether the model keeps the mount's level over the band.</param>
    /// <param name="practiceTakes">Whether practice takes the mount for the source; null where it has no word on it.</param>
    public static MountAgreement Of(bool modelHolds, bool? practiceTakes) => (modelHolds, practiceTakes) switch
    {
        (_, null) => MountAgreement.PracticeSilent,
        (true, true) => MountAgreement.BothServe,
        (false, false) => MountAgreement.NeitherServes,
        (true, false) => MountAgreement.ModelAlone,
        (false, true) => MountAgreement.PracticeAlone,
    };

    /// <summary>What an agreement is called: "model and practice part: practice alone takes it".</summary>
    public static string InWords(MountAgreement agreement) => agreement switch
    {
        MountAgreement.BothServe => "model and practice both take it",
        MountAgreement.NeitherServes => "neither model nor practice takes it",
        MountAgreement.ModelAlone => "they part: the model alone takes it",
        MountAgreement.PracticeAlone => "they part: practice alone takes it",
        MountAgreement.PracticeSilent => "practice has no word on it",
        _ => throw new ArgumentOutOfRangeException(nameof(agreement), agreement, null),
    };

    /// <summary>Why, with the figures that decide.</summary>
    public static string Why(MountAnswer a) => string.Join(' ', [Model(a), .. Practice(a)]);

    private static string Model(MountAnswer a)
    {
        var (q, tolerance) = (a.Question, QuantityText.Of(a.Question.ToleranceDb, "dB", 2));
        if (q.Mount == Mount.Pole)
        {
            var most = QuantityText.Number(PlaneReceiver.FreeFieldReflection(q.ToleranceDb), 2);
            var returns = QuantityText.UpTo(q.Reflection, 2);
            return a.HasBand
                ? $"Model: ground that returns {returns} of the pressure leaves bands from {Hz(a.FromHz)} on "
                    + $"within {tolerance} of the free field."
                : $"Model: over ground that returns {returns} of the pressure no band stays within {tolerance} of the free field; "
                    + $"it may return {most} at most.";
        }
        if (q.Mount == Mount.GroundStand)
        {
            return a.HasBand
                ? $"Model: third-octave averages stay within {tolerance} of +3.01 dB from {Hz(a.FromHz)} on; "
                    + $"under that single dips show, the first at {Hz(a.Receiver.FirstDipHz)}. It holds for no tone."
                : $"Model: no band stays within {tolerance} of +3.01 dB.";
        }
        var dip = double.IsFinite(a.Receiver.FirstDipHz) ? $"; the first dip is at {Hz(a.Receiver.FirstDipHz)}" : "";
        return a.HasBand
            ? $"Model: the pressure is doubled within {tolerance} up to {Hz(a.ToHz)}{dip}."
            : $"Model: the pressure is doubled within {tolerance} nowhere{dip}.";
    }

    private static IEnumerable<string> Practice(MountAnswer a)
    {
        var (q, source) = (a.Question, a.Question.Source);
        switch (a.Agreement)
        {
            case MountAgreement.PracticeSilent:
                yield return "Practice names jets, propellers and small multirotors alone.";
                break;
            case MountAgreement.PracticeAlone:
                yield return $"Practice takes it for {source.InWords} all the same ({MountPractice.Certainty}): {Accepted(a)}";
                break;
            case MountAgreement.ModelAlone:
                yield return $"Practice does not take it for {source.InWords} ({MountPractice.Certainty}): it thinks of "
                    + $"{MountPractice.Of(source)}. {(q.Mount == Mount.GroundStand
                        ? "The model speaks of averages over bands; a tone can lie in a dip."
                        : $"The band asked for ends at {Hz(q.ToHz)}.")}";
                break;
            case MountAgreement.NeitherServes:
                yield return $"Practice does not take it for {source.InWords} either ({MountPractice.Certainty}): it thinks of "
                    + $"{MountPractice.Of(source)}.";
                break;
            case MountAgreement.BothServe:
                yield return $"Practice takes it for {source.InWords} ({MountPractice.Certainty}).";
                break;
        }
    }

    private static string Accepted(MountAnswer a) => a.Question.Mount switch
    {
        Mount.Pole => "grown or soft ground seldom returns that much, what it returns comes "
            + $"{QuantityText.Number(1000 * a.Receiver.DelayS, 0)} ms late and from below, and averages even its dips out. "
            + "Over hard ground the difference is real: levels lie up to 3 dB too high, and nothing is taken off for it.",
        Mount.GroundStand => $"it thinks of {MountPractice.Of(a.Question.Source)}, whose dips fill while it passes, "
            + "and rules for jets have their limits at 1.2 m. Bands that the model leaves out carry its ripple.",
        Mount.FlushPlate => "nothing stands over the surface. What the model loses is of the step, the ground or the band's end.",
        _ => $"it thinks of {MountPractice.Of(a.Question.Source)}, so that little of the sound lies where the gap loses. "
            + $"Levels of bands above {Hz(a.ToHz)} are too low, and nothing is added for it.",
    };

    private static string Hz(double hz) => double.IsPositiveInfinity(hz)
        ? "any frequency"
        : hz < 1000 ? QuantityText.Of(hz, "Hz", 1) : QuantityText.Of(hz, "Hz", 0);
}
