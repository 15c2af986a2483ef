namespace MicRegister.Documents.Recordings;

/// <summary>How samples are stored, little-endian.</summary>
public enum SampleFormat
{
    /// <summary>16 bits signed; full scale 32768.</summary>
    Pcm16,

    /// <summary>24 bits signed; full scale 8388608.</summary>
    Pcm24,

    /// <summary>32 bits signed; full scale 2147483648.</summary>
    Pcm32,

    /// <summary>32-bit floating point; full scale 1.</summary>
    Float32,

    /// <summary>64-bit floating point; full scale 1.</summary>
    Float64,
}
