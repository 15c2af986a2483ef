using System.Text;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Tests.Facts;

public sealed class FactTextTests
{
    [Fact]
    public void A_fact_reads_back_as_it_was_written()
    {
        var fact = Make.Registered("A1", "100");

        var back = FactText.ReadCanonical(fact.Bytes);

        Assert.Equal(fact, back);
        Assert.Equal((fact.Id, fact.Kind, fact.Version, fact.Occurred, fact.Counter), (back.Id, back.Kind, back.Version, back.Occurred, back.Counter));
        Assert.Equal("100", Assert.IsType<DeviceRegistered>(back.Body).Serial);
    }

    [Fact]
    public void Saying_the_same_again_is_the_same_fact()
    {
        Assert.Equal(Make.Registered("A1", "100").Id, Make.Registered("A1", "100").Id);
        Assert.NotEqual(Make.Registered("A1", "100").Id, Make.Registered("A1", "101").Id);
    }

    [Fact]
    public void A_kind_or_version_of_the_future_is_kept_byte_for_byte()
    {
        var bytes = Encoding.UTF8.GetBytes("""{"at":"2030-01-01","author":"P1","body":{"new":1},"client":"c","counter":0,"id":"01JD8XK3ZZ0000000000000000","kind":"device-registered","subjects":["device:A1"],"version":99}""");

        var fact = FactText.ReadCanonical(bytes);

        Assert.IsType<UnreadBody>(fact.Body);
        Assert.Equal(bytes, fact.Bytes.ToArray());
    }

    [Theory]
    [InlineData("""{"author":"P1","body":{},"client":"c","counter":0,"id":"01JD8XK3ZZ0000000000000000","kind":"k","subjects":["device:A1"],"version":1}""", "at")]
    [InlineData("""{"at":"2030-13-01","author":"P1","body":{},"client":"c","counter":0,"id":"01JD8XK3ZZ0000000000000000","kind":"k","subjects":["device:A1"],"version":1}""", "at")]
    [InlineData("""{"at":"2030-01-01","author":"P1","body":{},"client":"c","counter":0,"id":"nope","kind":"k","subjects":["device:A1"],"version":1}""", "id")]
    [InlineData("""{"at":"2030-01-01","author":"P1","body":{},"client":"c","counter":-1,"id":"01JD8XK3ZZ0000000000000000","kind":"k","subjects":["device:A1"],"version":1}""", "counter")]
    [InlineData("""{"at":"2030-01-01","author":"P1","body":{},"client":"c","counter":0,"id":"01JD8XK3ZZ0000000000000000","kind":"k","subjects":[],"version":1}""", "subjects")]
    [InlineData("""{"at":"2030-01-01","author":"P1","body":3,"client":"c","counter":0,"id":"01JD8XK3ZZ0000000000000000","kind":"k","subjects":["device:A1"],"version":1}""", "body")]
    [InlineData("""{"at":"2030-01-01","author":"P1","body":{},"client":"c","counter":0,"id":"01JD8XK3ZZ0000000000000000","kind":"k","subjects":["device:A1"],"version":0}""", "version")]
    public void What_is_no_fact_is_refused_with_the_part_that_is_wrong(string text, string part)
    {
        var refusal = Assert.Throws<FormatException>(() => FactText.ReadCanonical(Encoding.UTF8.GetBytes(text)));

        Assert.Contains($"'{part}'", refusal.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("nonsense")]
    [InlineData("[]")]
    [InlineData("""{ "at":"2030-01-01" }""")]
    public void Other_texts_are_refused(string text) =>
        Assert.Throws<FormatException>(() => FactText.ReadCanonical(Encoding.UTF8.GetBytes(text)));

    [Fact]
    public void A_body_that_does_not_fit_its_kind_is_kept_as_unread()
    {
        var bytes = Encoding.UTF8.GetBytes("""{"at":"2030-01-01","author":"P1","body":{"place":7},"client":"c","counter":0,"id":"01JD8XK3ZZ0000000000000000","kind":"device-moved","subjects":["device:A1"],"version":1}""");

        Assert.IsType<UnreadBody>(FactText.ReadCanonical(bytes).Body);
    }

    [Fact]
    public void What_could_not_be_read_again_is_not_written()
    {
        var body = new DeviceNoted("x");
        Assert.Throws<FormatException>(() => FactText.WriteDerived(FactStamp.Imported(Occurred.Unknown, 0), body, ["device:" + new string('x', 200)]));
        Assert.Throws<FormatException>(() => FactText.WriteDerived(FactStamp.Imported(Occurred.Unknown, 0), body, []));
        Assert.Throws<FormatException>(() => FactText.WriteDerived(FactStamp.Imported(Occurred.Unknown, 0), body, [.. Enumerable.Range(0, 10_001).Select(i => "device:" + i)]));
        Assert.Throws<FormatException>(() => FactText.WriteDerived(new(Occurred.Unknown, "", "desk", 0), body, ["device:A"]));
        Assert.Throws<FormatException>(() => FactText.WriteDerived(new(Occurred.Unknown, "P1", "desk", -1), body, ["device:A"]));
    }

    [Fact]
    public void A_number_that_is_none_is_refused_when_written() => Assert.Throws<FormatException>(() =>
        FactText.WriteDerived(FactStamp.Imported(Occurred.Unknown, 0), new DeviceInspected(true, double.NaN, null, null, null), ["device:A1"]));

    [Fact]
    public void Every_kind_has_a_stored_example_that_still_loads()
    {
        var folder = Path.Combine(AppContext.BaseDirectory, "StoredFacts");
        foreach (var kind in FactKinds.All)
        {
            var file = Path.Combine(folder, $"{kind.Name}.{kind.Version}.json");
            Assert.True(File.Exists(file), $"There is no stored example {Path.GetFileName(file)}.");
            var fact = FactText.ReadCanonical(File.ReadAllBytes(file).AsSpan().TrimEnd((byte)'\n').ToArray());
            Assert.Equal((kind.Name, kind.Version), (fact.Kind, fact.Version));
            Assert.IsNotType<UnreadBody>(fact.Body);
            Assert.IsType(kind.Body, fact.Body);
            // Written again from what was read, it has the same bytes: nothing was dropped.
            var stamp = new FactStamp(fact.Occurred, fact.Author, fact.Client, fact.Counter);
            Assert.Equal(fact, FactText.Write(fact.Id, stamp, fact.Body, fact.Subjects, fact.Replaces));
        }
    }

    [Theory]
    [InlineData("2026-05-04", false)]
    [InlineData("2026-05-04T10:11:12.345Z", true)]
    public void Times_read_back(string text, bool isInstant)
    {
        Assert.True(Occurred.TryParse(text, out var occurred));
        Assert.Equal(isInstant, occurred.IsInstant);
        Assert.Equal(text, occurred.ToString());
        Assert.Equal(new DateOnly(2026, 5, 4), occurred.Day);
    }

    [Theory]
    [InlineData("2026-5-4")]
    [InlineData("2026-05-04T10:11:12Z")]
    [InlineData("2026-05-04T10:11:12.345+01:00")]
    [InlineData("")]
    public void Other_times_are_refused(string text) => Assert.False(Occurred.TryParse(text, out _));

    [Fact]
    public void Ids_order_as_their_texts()
    {
        var a = FactId.Create(1, new byte[10]);
        var b = FactId.Create(2, new byte[10]);

        Assert.True(a < b);
        Assert.True(string.CompareOrdinal(a.ToString(), b.ToString()) < 0);
        Assert.Equal(a, FactId.Parse(a.ToString()));
        Assert.False(FactId.TryParse("81JD8XK3ZZ0000000000000000", out _)); // over 128 bits
        Assert.False(FactId.TryParse("01JD8XK3ZZ000000000000000I", out _)); // no such digit
        Assert.Throws<ArgumentException>(() => FactId.Create(1, new byte[9]));
    }

    [Fact]
    public void A_set_digest_does_not_depend_on_order()
    {
        var (a, b) = (Make.Registered("A1", "1"), Make.Registered("A2", "2"));

        var one = default(SetDigest).With(a.Bytes.Span).With(b.Bytes.Span);
        var other = default(SetDigest).With(b.Bytes.Span).With(a.Bytes.Span);

        Assert.Equal(one, other);
        Assert.NotEqual(one, default(SetDigest).With(a.Bytes.Span));
        // Carry across all words: 2^256 - 1 plus 1 is 0.
        Assert.Equal(default, new SetDigest(ulong.MaxValue, ulong.MaxValue, ulong.MaxValue, ulong.MaxValue).With(new SetDigest(0, 0, 0, 1)));
    }
}
