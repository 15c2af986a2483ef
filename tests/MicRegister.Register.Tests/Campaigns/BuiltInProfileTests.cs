using System.Text.RegularExpressions;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Tests.Campaigns;

/// <summary>The table of built-in profiles is read line by line: no figure without a document, edition, clause and mark.</summary>
public sealed partial class BuiltInProfileTests
{
    private const string Seen = "seen, 2021 edition";
    private const string Memory = "from memory, unchecked";
    private const string Practice = "common practice, no source";

    public static TheoryData<string> Ids => [.. BuiltInProfiles.All.Select(p => p.Id)];

    [Theory]
    [MemberData(nameof(Ids))]
    public void Each_limit_says_where_it_comes_from_and_how_sure_it_is(string id)
    {
        var limits = BuiltInProfiles.Find(id)!.Written.Limits;

        Assert.NotEmpty(limits);
        Assert.All(limits, l =>
        {
            var key = LimitKey.Find(l.Key);
            Assert.NotNull(key);
            if (l.Value is { } value) Assert.InRange(value, key.Least, key.Greatest);
            else Assert.NotEmpty(l.Text!);
            if (l.Certainty == Practice)
            {
                Assert.StartsWith(Practice, l.Source, StringComparison.Ordinal);
                Assert.Equal((null, null, null), (l.Document, l.Edition, l.Clause));
                return;
            }
            Assert.Contains(l.Certainty, new[] { Seen, Memory });
            Assert.Matches(Year(), l.Edition);
            var said = l.Document == "14 CFR 36" ? $"14 CFR 36, {l.Clause}" : $"{l.Document}:{l.Edition}, {l.Clause}";
            Assert.StartsWith(said, l.Source, StringComparison.Ordinal);
            // What was read is 14 CFR part 36 as of 2021, and nothing else.
            Assert.Equal((l.Document == "14 CFR 36", l.Document == "14 CFR 36" ? "2021" : l.Edition), (l.Certainty == Seen, l.Edition));
            if (l.Document == "14 CFR 36") Assert.Matches(Part36Clause(), l.Clause);
        });
        Assert.Equal(limits.Count, limits.Select(l => l.Key).Distinct(StringComparer.Ordinal).Count());
    }

    [Theory]
    [MemberData(nameof(Ids))]
    public void Each_statement_leaves_the_last_word_to_the_authority(string id) =>
        Assert.EndsWith("follow the authority's current text.", BuiltInProfiles.Find(id)!.Written.Statement, StringComparison.Ordinal);

    // Nobody here knows the noise of a site: what rules ask of it is no margin of a microphone, and stands in the statements alone.
    [Theory]
    [InlineData("transport-1200mm", "A36.3.10.1", "20 dB below in PNL")]
    [InlineData("transport-1200mm", "A36.3.10.2", "3 dB in each band")]
    [InlineData("small-propeller-inverted", "G36.107(c)", "10 dB(A) below")]
    [InlineData("light-helicopter-1200mm", "J36.109(f)(3)", "15 dB(A) below")]
    public void What_cannot_be_judged_of_a_site_is_said(string id, string clause, string says)
    {
        var written = BuiltInProfiles.Find(id)!.Written;

        Assert.Contains("Not judged", written.Statement, StringComparison.Ordinal);
        Assert.Contains(clause, written.Statement, StringComparison.Ordinal);
        Assert.Contains(says, written.Statement, StringComparison.Ordinal);
        Assert.DoesNotContain(written.Limits, l => l.Clause == clause);
        Assert.Equal(Practice, written.Limits.Single(l => l.Key == LimitKey.NoiseMarginDb).Certainty);
    }

    // 14 CFR 36, G36.105(f) leads to A36.3.8 and A36.3.9, J36.109(c)(4) to A36.3.9 (2021 edition).
    [Theory]
    [InlineData("small-propeller-inverted", "G36.105(f)", LimitKey.CalibratorClassLeast, "A36.3.8.1")]
    [InlineData("small-propeller-inverted", "G36.105(f)", LimitKey.CalibratorStepDb, "A36.3.9.7")]
    [InlineData("light-helicopter-1200mm", "J36.109(c)(4)", LimitKey.CalibratorStepDb, "A36.3.9.7")]
    [InlineData("light-helicopter-1200mm", "J36.109(c)(4)", LimitKey.IntervalDays + "microphone/response", "A36.3.9.2")]
    public void A_clause_that_leads_to_another_is_named_beside_it(string id, string by, string key, string clause) => Assert.StartsWith(
        $"14 CFR 36, {clause}, by {by}", BuiltInProfiles.Find(id)!.Limit(key)!.Source, StringComparison.Ordinal);

    // Three quarters of half of 40 cm (14 CFR 36, G36.107(a), 2021 edition): 0.75 · 200 mm = 150 mm.
    [Fact]
    public void The_capsule_of_a_small_aeroplane_sits_150_mm_from_the_centre_of_its_plate()
    {
        var profile = BuiltInProfiles.Find("small-propeller-inverted")!;

        Assert.Equal(150, profile.Value(LimitKey.CapsuleShare)!.Value * profile.Value(LimitKey.PlateDiameterMm)!.Value / 2, 1e-12);
    }

    [Fact]
    public void A_limit_with_its_clause_is_stored_and_reads_back_and_one_without_still_opens()
    {
        var written = BuiltInProfiles.Find("light-helicopter-1200mm")!.Written;

        var fact = Make.Of(written, "2026-05-01", "profile:copy");
        var read = (ProfileWritten)FactText.ReadCanonical(fact.Bytes).Body;

        Assert.Equal(written.Limits, read.Limits);
        Assert.Equal(("14 CFR 36", "2021", "J36.109(f)(1)"), (read.Limits[0].Document, read.Limits[0].Edition, read.Limits[0].Clause));
        var old = new ProfileLimit(LimitKey.DriftDb, 0.3, null, Practice, "own");
        var without = Make.Of(written with { Limits = [old] }, "2026-05-01", "profile:old");
        Assert.Equal(old, ((ProfileWritten)FactText.ReadCanonical(without.Bytes).Body).Limits[0]);
    }

    [Theory]
    [InlineData(LimitKey.CheckAir, "pressure, temperature", null)]
    [InlineData(LimitKey.CheckAir, "pressure, rain", "'rain': allowed are pressure, temperature")]
    [InlineData(LimitKey.ResponseTypes, "pressure", null)]
    [InlineData(LimitKey.ResponseTypes, "loud", "'loud': allowed are free-field, pressure, diffuse")]
    public void Words_of_a_limit_are_taken_or_refused_with_what_is_allowed(string key, string words, string? why)
    {
        var saying = new Saying(new(Make.On("2026-05-01"), "P1", "desk", 7));

        var answer = CampaignDecisions.Write(FactList.RegisterOf([]), saying, "own", new("Own", "", [new(key, null, words, "own", "own")]));

        if (why is null) Assert.IsType<Result<IReadOnlyList<Fact>>.Accepted>(answer);
        else Assert.Contains(why, ((Result<IReadOnlyList<Fact>>.Rejected)answer).Why.Text, StringComparison.Ordinal);
    }

    [GeneratedRegex("^(19|20)[0-9]{2}$")]
    private static partial Regex Year();

    [GeneratedRegex(@"^[AGJ]36\.[0-9]+(\.[0-9]+)*(\([a-z0-9]+\))*$")]
    private static partial Regex Part36Clause();
}
