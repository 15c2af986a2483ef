using MicRegister.Metrology.Atmosphere;
using MicRegister.Metrology.Conformity;
using MicRegister.Metrology.GroundPlane;
using MicRegister.Metrology.Quantities;
using MicRegister.Metrology.Responses;

namespace MicRegister.Register.Mounting;

/// <summary>What the model says of a mount, what practice says, and where they part. A pure function of the question.</summary>
/// <param name="Question">What was asked.</param>
/// <param name="Receiver">The model of it.</param>
/// <param name="FromHz">Where the model keeps the mount's level within the tolerance, in Hz; nowhere where it is not under the end.</param>
/// <param name="ToHz">Its end; infinite where the model sets none.</param>
/// <param name="Bands">The third-octave bands of the band that was asked for.</param>
/// <param name="Effects">What another gap, step or temperature makes of it.</param>
/// <param name="Capsules">What sizes of capsules bear at the upper end.</param>
public sealed record MountAnswer(
    MountQuestion Question, PlaneReceiver Receiver, double FromHz, double ToHz, IReadOnlyList<MountBand> Bands,
    IReadOnlyList<MountEffect> Effects, IReadOnlyList<CapsuleSize> Capsules)
{
    /// <summary>How much higher than in the free field a level is taken to be, in dB: all that is ever taken off.</summary>
    public double RaisesDb => Question.Mount.RaisesDb;

    /// <summary>Whether the model keeps the mount's level over the whole band that was asked for, both ends inclusive.</summary>
    public bool ModelHolds => DecisionLimit.AtLeast(Question.FromHz, FromHz) && DecisionLimit.AtMost(Question.ToHz, ToHz);

    /// <summary>Whether there is any frequency at which the model keeps it.</summary>
    public bool HasBand => FromHz < ToHz;

    /// <summary>Whether practice takes the mount for the source; null where it has no word on it.</summary>
    public bool? PracticeTakes => MountPractice.Takes(Question.Mount, Question.Source);

    /// <summary>How both stand to each other.</summary>
    public MountAgreement Agreement => MountAgainstPractice.Of(ModelHolds, PracticeTakes);

    /// <summary>Why, in words.</summary>
    public string Why => MountAgainstPractice.Why(this);

    /// <summary>Answers.</summary>
    /// <exception cref="ArgumentException">The question has faults.</exception>
    public static MountAnswer Of(MountQuestion question)
    {
        if (question.Faults() is [var fault, ..]) throw new ArgumentException(fault.Text, nameof(question));
        var receiver = At(question, question.HeightM, question.TemperatureC);
        var (from, to) = MountUse.ByModel(question.Mount, receiver, question.ToleranceDb);
        List<MountEffect> effects = [];
        foreach (var (what, heightM, temperatureC) in Changed(question))
        {
            var other = At(question, heightM, temperatureC);
            var (otherFrom, otherTo) = MountUse.ByModel(question.Mount, other, question.ToleranceDb);
            effects.Add(new(what, other, otherFrom, otherTo));
        }
        return new(
            question, receiver, from, to, [.. BandsOf(question).Select(b => Band(question, receiver, effects, b))], effects,
            [.. CapsuleSize.UsualMm.Select(mm => CapsuleSize.Of(mm, question.ToHz, receiver.SpeedOfSound))]);
    }

    // The bands by name; where a narrow band holds none, the one that its upper end lies in.
    private static IReadOnlyList<ThirdOctave> BandsOf(MountQuestion q) =>
        ThirdOctave.Between(q.FromHz, q.ToHz) is { Count: > 0 } bands
            ? bands
            : [new((int)Math.Round(10 * Math.Log10(q.ToHz / 1000)))];

    private static MountBand Band(MountQuestion q, PlaneReceiver receiver, List<MountEffect> effects, ThirdOctave band)
    {
        var level = receiver.BandDb(band);
        var off = level - q.Mount.RaisesDb;
        return new(
            band, receiver.ToneDb(band.MiddleHz), level, off, DecisionLimit.AtMost(Math.Abs(off), q.ToleranceDb),
            [.. effects.Select(e => e.Receiver.BandDb(band))]);
    }

    private static IEnumerable<(string What, double HeightM, double TemperatureC)> Changed(MountQuestion q)
    {
        var off = q.HeightOffMm / 1000;
        if (off > 0)
        {
            // A flush capsule can stand proud; the model has no word for one that lies below.
            var mm = FormattableString.Invariant($"{q.HeightOffMm:0.###} mm");
            if (q.HeightM > off) yield return (mm + " lower", q.HeightM - off, q.TemperatureC);
            yield return (mm + " higher", q.HeightM + off, q.TemperatureC);
        }
        yield return ($"at {QuantityText.UpTo(q.ColdC, 1)} °C", q.HeightM, q.ColdC);
        yield return ($"at {QuantityText.UpTo(q.WarmC, 1)} °C", q.HeightM, q.WarmC);
    }

    private static PlaneReceiver At(MountQuestion q, double heightM, double temperatureC) =>
        new(heightM, q.ElevationDeg, StandardAtmosphere.SpeedOfSound(temperatureC), q.Reflection);
}

/// <summary>A third-octave band over a mount.</summary>
/// <param name="Band">The band.</param>
/// <param name="ToneDb">Level re free field of a tone at its exact middle, in dB.</param>
/// <param name="LevelDb">Level re free field of the band, in dB: the energy average, white within the band.</param>
/// <param name="OffDb">How far that is from the level that the mount is meant to have, in dB.</param>
/// <param name="IsWithin">Whether that is within the tolerance, itself included.</param>
/// <param name="ChangedDb">The level of the band under each of the answer's effects, in dB, in their order.</param>
public sealed record MountBand(
    ThirdOctave Band, double ToneDb, double LevelDb, double OffDb, bool IsWithin, IReadOnlyList<double> ChangedDb);

/// <summary>What another gap, step or temperature makes.</summary>
/// <param name="What">Such as 1 mm higher.</param>
/// <param name="Receiver">The model of it.</param>
/// <param name="FromHz">Where it keeps the mount's level, in Hz.</param>
/// <param name="ToHz">To where; infinite where the model sets no end.</param>
public sealed record MountEffect(string What, PlaneReceiver Receiver, double FromHz, double ToHz);
