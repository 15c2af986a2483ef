using System.Text;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Tests.Facts;

/// <summary>Signs that cannot be seen are not stated; what came from elsewhere with them stays a fact.</summary>
public sealed class HiddenSignTests
{
    // Unicode 15.0, chapter 23.1 and 23.3 (control codes) and UAX #9, 2 (embeddings, overrides, isolates).
    [Theory]
    [InlineData('\u0000', true)]
    [InlineData('\u001F', true)]
    [InlineData('\u0085', true)]
    [InlineData('\u202A', true)]
    [InlineData('\u202E', true)]
    [InlineData('\u2066', true)]
    [InlineData('\u2069', true)]
    [InlineData('\t', false)]
    [InlineData('\n', false)]
    [InlineData('\r', false)]
    [InlineData('\u200F', false)] // a mark of right-to-left scripts turns nothing round
    [InlineData('é', false)]
    [InlineData('−', false)]
    public void A_sign_is_seen_or_not(char sign, bool isHidden) => Assert.Equal(isHidden, HiddenSigns.Holds(sign));

    [Theory]
    [InlineData("a\u0000b", "text 'U+0000': allowed is")]
    [InlineData("a\u202Eb", "text 'U+202E': allowed is")]
    public void A_text_with_one_is_not_stated_and_the_field_is_named(string text, string says)
    {
        var why = Assert.Throws<BeyondBoundException>(() => Stated(new DeviceNoted(text))).Breach;

        Assert.StartsWith(says, why.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Lines_and_tabs_are_stated() => Assert.Equal("a\n\tb", ((DeviceNoted)Stated(new DeviceNoted("a\n\tb")).Body).Text);

    [Fact]
    public void What_came_from_elsewhere_with_one_still_counts()
    {
        var plain = Encoding.UTF8.GetString(Stated(new DeviceNoted("a?b")).Bytes.Span);

        var read = FactText.ReadCanonical(Encoding.UTF8.GetBytes(plain.Replace("a?b", "a\u202Eb", StringComparison.Ordinal)));

        Assert.Equal(new DeviceNoted("a\u202Eb"), read.Body);
    }

    private static Fact Stated(FactBody body) => FactText.WriteDerived(new(Occurred.On(new(2026, 5, 4)), "P1", "desk", 7), body, ["device:A1"]);
}
