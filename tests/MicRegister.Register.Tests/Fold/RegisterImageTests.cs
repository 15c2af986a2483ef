using MicRegister.Register.Facts;

namespace MicRegister.Register.Tests.Fold;

/// <summary>An image is taken only where this program would have made the same one.</summary>
public sealed class RegisterImageTests
{
    private static readonly Fact[] Two = [Make.Registered("A1", "1"), Make.Registered("A2", "2")];

    [Theory]
    [InlineData(0)]
    [InlineData(31)]
    [InlineData(63)]
    public void An_image_that_was_made_with_other_bounds_is_not_taken(int sign)
    {
        var register = FactList.RegisterOf(Two);
        var (image, end) = Written(register);
        Assert.Equal(64, BodyBounds.Fingerprint.Length);
        Assert.Equal(register.Digest, Read(image, register).Digest);

        // As a program writes it that knows other kinds of facts or other bounds: one sign of the fingerprint is another one.
        var at = end - 64 + sign;
        image[at] = image[at] == (byte)'0' ? (byte)'1' : (byte)'0';

        var refusal = Assert.Throws<FormatException>(() => Read(image, register));
        Assert.Contains("other kinds of facts", refusal.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void An_image_of_another_version_is_not_taken()
    {
        var register = FactList.RegisterOf(Two);
        var (image, _) = Written(register);
        image[0] ^= 1;

        var refusal = Assert.Throws<FormatException>(() => Read(image, register));
        Assert.Contains("another version", refusal.Message, StringComparison.Ordinal);
    }

    private static Register Read(byte[] image, Register of)
    {
        using var from = new MemoryStream(image);
        return RegisterImage.Read(from, of.Source);
    }

    // The image, and where the fingerprint behind its version ends.
    private static (byte[] Image, int End) Written(Register register)
    {
        using var to = new MemoryStream();
        RegisterImage.Write(register, to);
        to.Position = 0;
        using var reader = new BinaryReader(to);
        reader.ReadInt32();
        Assert.Equal(BodyBounds.Fingerprint, reader.ReadString());
        return (to.ToArray(), (int)to.Position);
    }
}
